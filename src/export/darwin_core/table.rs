//! A table of an archive: what its rows are, what its columns mean, and its text.

/// A term of Darwin Core.
macro_rules! dwc {
    ($name:literal) => {
        concat!("http://rs.tdwg.org/dwc/terms/", $name)
    };
}

/// A term of Dublin Core.
macro_rules! dcterms {
    ($name:literal) => {
        concat!("http://purl.org/dc/terms/", $name)
    };
}

pub(super) use {dcterms, dwc};

/// Rows of one kind.
pub(super) struct Table {
    /// Name of its file.
    pub(super) file: &'static str,
    /// What a row is.
    pub(super) row_type: &'static str,
    /// What each column is.
    pub(super) terms: &'static [&'static str],
    /// The rows: of the core as many cells as terms; of an extension one more in front, the identifier
    /// of the row of the core that it belongs to.
    pub(super) rows: Vec<Vec<String>>,
}

impl Table {
    /// Whether its rows belong to rows of the core.
    pub(super) fn is_extension(&self) -> bool {
        self.row_type != dwc!("Occurrence")
    }

    /// The table as CSV with a header: commas, double quotes where needed, lines ended by a line feed.
    /// A line break within a cell becomes a blank, since not all readers of archives take one.
    pub(super) fn csv(&self) -> Result<Vec<u8>, csv::Error> {
        let mut writer = csv::Writer::from_writer(Vec::new());
        let core_id = self.is_extension().then_some("coreid");
        writer.write_record(
            core_id
                .into_iter()
                .chain(self.terms.iter().map(|t| name(t))),
        )?;
        for row in &self.rows {
            writer.write_record(row.iter().map(|cell| in_one_line(cell)))?;
        }
        writer
            .into_inner()
            .map_err(|error| csv::Error::from(error.into_error()))
    }
}

/// The last part of a term's address.
pub(in crate::export) fn name(term: &str) -> &str {
    term.rsplit('/').next().unwrap_or(term)
}

fn in_one_line(cell: &str) -> String {
    cell.replace("\r\n", " ").replace(['\n', '\r', '\t'], " ")
}
