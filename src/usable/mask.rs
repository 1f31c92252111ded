//! Sets of tiles: what lies next to what.

use super::looks::Grid;

/// The tiles up to one row and one column away, the tile itself among them.
pub(super) fn about(grid: &Grid, tile: usize) -> impl Iterator<Item = usize> + use<> {
    let Grid { columns, rows, .. } = *grid;
    let (column, row) = (tile % columns, tile / columns);
    (row.saturating_sub(1)..(row + 2).min(rows)).flat_map(move |row| {
        (column.saturating_sub(1)..(column + 2).min(columns)).map(move |c| row * columns + c)
    })
}

/// The tiles that share a side with one.
pub(super) fn beside(grid: &Grid, tile: usize) -> impl Iterator<Item = usize> + use<> {
    let columns = grid.columns;
    about(grid, tile).filter(move |&other| {
        other != tile && (other % columns == tile % columns || other / columns == tile / columns)
    })
}

/// Connected pieces of the tiles for which `belongs` holds, tile numbers in rising order.
pub(super) fn pieces(grid: &Grid, belongs: impl Fn(usize) -> bool) -> Vec<Vec<usize>> {
    let mut seen = vec![false; grid.columns * grid.rows];
    let mut pieces = Vec::new();
    for start in 0..seen.len() {
        if seen[start] || !belongs(start) {
            continue;
        }
        seen[start] = true;
        let mut piece = vec![start];
        let mut next = 0;
        while let Some(&tile) = piece.get(next) {
            next += 1;
            for other in beside(grid, tile) {
                if !seen[other] && belongs(other) {
                    seen[other] = true;
                    piece.push(other);
                }
            }
        }
        piece.sort_unstable();
        pieces.push(piece);
    }
    pieces
}

/// What is left when everything narrower than two tiles goes.
pub(super) fn opened(grid: &Grid, mask: &[bool]) -> Vec<bool> {
    let mut kept = vec![false; mask.len()];
    for row in 0..grid.rows.saturating_sub(1) {
        for column in 0..grid.columns.saturating_sub(1) {
            let tile = row * grid.columns + column;
            let square = [tile, tile + 1, tile + grid.columns, tile + grid.columns + 1];
            if square.iter().all(|&t| mask[t]) {
                for tile in square {
                    kept[tile] = true;
                }
            }
        }
    }
    kept
}

/// Tiles of `weak` that hang together with a tile of `strong`.
pub(super) fn grown(grid: &Grid, strong: &[bool], weak: &[bool]) -> Vec<bool> {
    let mut kept = vec![false; strong.len()];
    for piece in pieces(grid, |tile| strong[tile] || weak[tile]) {
        if piece.iter().any(|&tile| strong[tile]) {
            for tile in piece {
                kept[tile] = true;
            }
        }
    }
    kept
}

/// Mean over the tiles about each one that `counts`; what it was where none does.
pub(super) fn smoothed(grid: &Grid, values: &[f32], counts: &[bool]) -> Vec<f32> {
    (0..values.len())
        .map(|tile| {
            let (sum, count) = about(grid, tile)
                .filter(|&other| counts[other])
                .fold((0.0, 0.0), |(sum, count), other| {
                    (sum + values[other], count + 1.0)
                });
            if count > 0.0 {
                sum / count
            } else {
                values[tile]
            }
        })
        .collect()
}
