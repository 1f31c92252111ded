//! Columns of text set side by side.

/// Rows in columns as wide as their widest cell, two blanks apart, no blanks at the end of a line.
pub(super) fn columns<const N: usize>(rows: &[[String; N]]) -> String {
    let width = |column: usize| {
        let widths = rows.iter().map(|row| row[column].chars().count());
        widths.max().unwrap_or(0)
    };
    let widths: [usize; N] = std::array::from_fn(width);
    let mut text = String::new();
    for row in rows {
        let mut line = String::new();
        for (cell, width) in row.iter().zip(widths) {
            line.push_str(cell);
            line.extend(std::iter::repeat_n(' ', width + 2 - cell.chars().count()));
        }
        text.push_str(line.trim_end());
        text.push('\n');
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_stand_below_one_another() {
        let rows = [["é", "bb", ""], ["ccc", "d", "e"]].map(|row| row.map(str::to_owned));
        assert_eq!(columns(&rows), "é    bb\nccc  d   e\n");
    }
}
