//! Tables as Apache Parquet files (<https://parquet.apache.org/docs/file-format/>), which analysis engines
//! read directly: every column bears its kind, and a cell that could not be had is null.

use parquet::basic::{LogicalType, Repetition, Type as Physical};
use parquet::column::writer::ColumnWriter;
use parquet::data_type::ByteArray;
use parquet::errors::ParquetError;
use parquet::file::properties::WriterProperties;
use parquet::file::writer::SerializedFileWriter;
use parquet::schema::types::Type;
use std::io::Write;
use std::sync::Arc;

/// Rows that are held in memory until they are written.
const ROWS_IN_MEMORY: usize = 20_000;

/// What the cells of a column hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// UTF-8.
    Text,
    /// A figure, 64 bits.
    Number,
    /// A whole number, 64 bits.
    Whole,
    /// `true` or `false`.
    Truth,
}

/// A table that is being written.
pub struct ParquetTable<W: Write + Send> {
    file: SerializedFileWriter<W>,
    kinds: Vec<Kind>,
    /// Column by column.
    waiting: Vec<Vec<String>>,
}

impl<W: Write + Send> ParquetTable<W> {
    /// Begins a table with such columns.
    ///
    /// # Errors
    /// When it cannot be written.
    pub fn new(
        file: W,
        columns: impl IntoIterator<Item = (&'static str, Kind)>,
    ) -> Result<Self, ParquetError> {
        let (names, kinds): (Vec<&str>, Vec<Kind>) = columns.into_iter().unzip();
        let fields = names
            .iter()
            .zip(&kinds)
            .map(|(name, kind)| {
                let physical = match kind {
                    Kind::Text => Physical::BYTE_ARRAY,
                    Kind::Number => Physical::DOUBLE,
                    Kind::Whole => Physical::INT64,
                    Kind::Truth => Physical::BOOLEAN,
                };
                let text = (*kind == Kind::Text).then_some(LogicalType::String);
                let field = Type::primitive_type_builder(name, physical)
                    .with_repetition(Repetition::OPTIONAL)
                    .with_logical_type(text)
                    .build()?;
                Ok(Arc::new(field))
            })
            .collect::<Result<Vec<_>, ParquetError>>()?;
        let schema = Type::group_type_builder("table")
            .with_fields(fields)
            .build()?;
        let properties = WriterProperties::builder()
            .set_created_by(concat!("poreline ", env!("CARGO_PKG_VERSION")).to_owned())
            .build();
        Ok(Self {
            file: SerializedFileWriter::new(file, Arc::new(schema), Arc::new(properties))?,
            waiting: vec![Vec::new(); kinds.len()],
            kinds,
        })
    }

    /// Adds a row; an empty cell is null, and so is one that is not of its column's kind.
    ///
    /// # Errors
    /// When it cannot be written.
    pub fn add<T: Into<String>>(
        &mut self,
        cells: impl IntoIterator<Item = T>,
    ) -> Result<(), ParquetError> {
        for (column, cell) in self.waiting.iter_mut().zip(cells) {
            column.push(cell.into());
        }
        if self
            .waiting
            .first()
            .is_some_and(|c| c.len() >= ROWS_IN_MEMORY)
        {
            self.write_waiting()?;
        }
        Ok(())
    }

    /// Ends the table.
    ///
    /// # Errors
    /// When it cannot be written.
    pub fn finish(mut self) -> Result<W, ParquetError> {
        self.write_waiting()?;
        self.file.into_inner()
    }

    fn write_waiting(&mut self) -> Result<(), ParquetError> {
        if self.waiting.iter().all(Vec::is_empty) {
            return Ok(());
        }
        let mut rows = self.file.next_row_group()?;
        for (cells, kind) in self.waiting.iter_mut().zip(&self.kinds) {
            let Some(mut column) = rows.next_column()? else {
                break;
            };
            match column.untyped() {
                ColumnWriter::ByteArrayColumnWriter(writer) => {
                    let (values, there) = filled(cells, |cell| Some(ByteArray::from(cell)));
                    writer.write_batch(&values, Some(&there), None)?;
                }
                ColumnWriter::DoubleColumnWriter(writer) => {
                    let (values, there) = filled(cells, |cell| cell.parse::<f64>().ok());
                    writer.write_batch(&values, Some(&there), None)?;
                }
                ColumnWriter::Int64ColumnWriter(writer) => {
                    let (values, there) = filled(cells, |cell| cell.parse::<i64>().ok());
                    writer.write_batch(&values, Some(&there), None)?;
                }
                ColumnWriter::BoolColumnWriter(writer) => {
                    let (values, there) = filled(cells, |cell| cell.parse::<bool>().ok());
                    writer.write_batch(&values, Some(&there), None)?;
                }
                _ => {
                    return Err(ParquetError::NYI(format!(
                        "columns of another kind than {kind:?}"
                    )));
                }
            }
            column.close()?;
            cells.clear();
        }
        rows.close()?;
        Ok(())
    }
}

/// Values that are there, and for each cell whether one is (1) or not (0).
fn filled<T>(cells: &[String], read: impl Fn(&str) -> Option<T>) -> (Vec<T>, Vec<i16>) {
    let read = |cell: &String| (!cell.is_empty()).then(|| read(cell)).flatten();
    let all: Vec<Option<T>> = cells.iter().map(read).collect();
    let there = all.iter().map(|value| i16::from(value.is_some())).collect();
    (all.into_iter().flatten().collect(), there)
}

#[cfg(test)]
mod tests {
    use super::*;
    use parquet::file::reader::{FileReader as _, SerializedFileReader};
    use parquet::record::RowAccessor as _;

    #[test]
    fn what_is_read_again_is_what_was_written() {
        let columns = [
            ("photo", Kind::Text),
            ("per_mm", Kind::Number),
            ("count", Kind::Whole),
            ("whole", Kind::Truth),
        ];
        let mut table =
            ParquetTable::new(tempfile::tempfile().expect("a file"), columns).expect("a table");
        table.add(["=a.jpg", "4.25", "12", "true"]).expect("a row");
        table.add(["Fên.jpg", "", "", "false"]).expect("a row");
        let file = table.finish().expect("written");
        let reader = SerializedFileReader::new(file).expect("a table");
        let rows: Vec<_> = reader
            .get_row_iter(None)
            .expect("rows")
            .map(|row| row.expect("a row"))
            .collect();
        assert_eq!(rows.len(), 2);
        assert_eq!(
            rows[0].get_string(0).map(String::as_str).ok(),
            Some("=a.jpg")
        );
        assert_eq!(rows[0].get_double(1).ok(), Some(4.25));
        assert_eq!(rows[0].get_long(2).ok(), Some(12));
        assert_eq!(
            rows[1].get_string(0).map(String::as_str).ok(),
            Some("Fên.jpg")
        );
        assert!(rows[1].get_double(1).is_err(), "null");
        assert_eq!(rows[1].get_bool(3).ok(), Some(false));
    }
}
