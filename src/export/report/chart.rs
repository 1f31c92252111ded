//! Bars on a line, drawn alike in every kind of report.

use crate::statistics::Histogram;

/// Height of a chart's bars, mm.
const BARS_MM: f64 = 28.0;
/// Room above the highest bar, for its words, mm.
const ABOVE_MM: f64 = 4.5;
/// A line of words below the bars, mm.
const ROW_MM: f64 = 4.0;
/// Height of letters, mm.
pub(super) const LETTERS_MM: f64 = 2.8;
/// Marks below a histogram at most.
const MOST_MARKS: usize = 9;

/// Bars beside one another.
#[derive(Debug, Clone, PartialEq)]
pub struct Chart {
    /// What it shows, in a sentence that can stand for it.
    pub says: String,
    /// The bars, from left to right.
    pub bars: Vec<Bar>,
    /// Words below the line, row by row, each at so many bars from the left.
    pub marks: Vec<Vec<(f64, String)>>,
}

/// One bar.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Bar {
    /// How tall, the chart being 1.
    pub height: f64,
    /// From where to where the figure could be, in the same unit.
    pub interval: Option<(f64, f64)>,
    /// Words above it.
    pub says: String,
}

/// What a chart is drawn of, mm from its upper left corner.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Shape {
    /// A bar.
    Block { from: [f64; 2], size: [f64; 2] },
    /// A thin line.
    Line { from: [f64; 2], to: [f64; 2] },
    /// Words about a place at their foot.
    Words { foot: [f64; 2], text: String },
}

impl Chart {
    /// How many pores have which diameter.
    pub(super) fn of(histogram: &Histogram, things: &str) -> Self {
        let classes = histogram.counts.len();
        let total: usize = histogram.counts.iter().sum();
        let step = classes.div_ceil(MOST_MARKS - 1).max(1);
        let mut edges: Vec<(f64, String)> = (0..=classes)
            .step_by(step)
            .map(|class| (class as f64, histogram.edge(class)))
            .collect();
        if let Some(last) = edges.last_mut() {
            last.1.push_str(" mm");
        }
        let most = histogram.counts.iter().max();
        Self {
            says: format!(
                "Diameters of {total} whole {things}, {} to {} mm",
                histogram.edge(0),
                histogram.edge(classes)
            ),
            bars: (histogram.heights().zip(&histogram.counts))
                .map(|(height, count)| Bar {
                    height: f64::from(height),
                    interval: None,
                    // One figure tells how tall the others are.
                    says: if Some(count) == most {
                        count.to_string()
                    } else {
                        String::new()
                    },
                })
                .collect(),
            marks: vec![edges],
        }
    }

    /// Height of the whole, mm.
    pub(super) fn height_mm(&self) -> f64 {
        ABOVE_MM + BARS_MM + ROW_MM * self.marks.len() as f64 + 1.0
    }

    /// What it is drawn of, so many mm wide.
    pub(super) fn shapes(&self, width_mm: f64) -> Vec<Shape> {
        // Words at the ends hang over by half.
        let side = 6.0;
        let bar = (width_mm - 2.0 * side) / self.bars.len().max(1) as f64;
        let ground = ABOVE_MM + BARS_MM;
        let level = |share: f64| ground - BARS_MM * share.clamp(0.0, 1.0);
        let mut shapes = Vec::new();
        for (at, one) in self.bars.iter().enumerate() {
            let x = side + bar * at as f64;
            let middle = x + bar / 2.0;
            if one.height > 0.0 {
                shapes.push(Shape::Block {
                    from: [x + 0.06 * bar, level(one.height)],
                    size: [0.88 * bar, ground - level(one.height)],
                });
            }
            let mut top = level(one.height);
            if let Some((low, high)) = one.interval {
                let end = 0.12 * bar;
                for (from, to) in [
                    ([middle, level(low)], [middle, level(high)]),
                    ([middle - end, level(low)], [middle + end, level(low)]),
                    ([middle - end, level(high)], [middle + end, level(high)]),
                ] {
                    shapes.push(Shape::Line { from, to });
                }
                top = level(high);
            }
            if !one.says.is_empty() {
                shapes.push(Shape::Words {
                    foot: [middle, top - 1.0],
                    text: one.says.clone(),
                });
            }
        }
        shapes.push(Shape::Line {
            from: [side, ground],
            to: [width_mm - side, ground],
        });
        for (row, marks) in self.marks.iter().enumerate() {
            for (at, text) in marks {
                shapes.push(Shape::Words {
                    foot: [side + bar * at, ground + ROW_MM * (row + 1) as f64],
                    text: text.clone(),
                });
            }
        }
        shapes
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bars_are_as_tall_as_their_counts() {
        // 5, 10 and 5 of 20 values in classes of one width.
        let values = [vec![0.11; 5], vec![0.15; 10], vec![0.19; 5]].concat();
        let histogram = Histogram::of(values).expect("a histogram");
        let chart = Chart::of(&histogram, "pores");
        assert!(chart.says.starts_with("Diameters of 20 whole pores"));
        let heights: Vec<f64> = chart
            .shapes(100.0)
            .iter()
            .filter_map(|shape| match shape {
                Shape::Block { size, .. } => Some(size[1]),
                _ => None,
            })
            .collect();
        let counts: Vec<f64> = (histogram.counts.iter())
            .filter(|count| **count > 0)
            .map(|count| *count as f64)
            .collect();
        let most = counts.iter().copied().fold(0.0, f64::max);
        assert_eq!(heights.len(), counts.len());
        for (height, count) in heights.iter().zip(counts) {
            assert!(
                (height / BARS_MM - count / most).abs() < 1e-6,
                "{heights:?}"
            );
        }
    }

    #[test]
    fn everything_stays_on_the_chart() {
        let chart = Chart {
            says: String::new(),
            bars: vec![
                Bar {
                    height: 1.0,
                    interval: Some((0.3, 1.0)),
                    says: "100 %".to_owned(),
                };
                12
            ],
            marks: vec![vec![(0.5, "Jan".to_owned())], vec![(11.5, "4".to_owned())]],
        };
        let (width, height) = (180.0, chart.height_mm());
        for shape in chart.shapes(width) {
            let places = match shape {
                Shape::Block { from, size } => {
                    vec![from, [from[0] + size[0], from[1] + size[1]]]
                }
                Shape::Line { from, to } => vec![from, to],
                Shape::Words { foot, .. } => vec![foot, [foot[0], foot[1] - LETTERS_MM]],
            };
            for [x, y] in places {
                assert!((0.0..=width).contains(&x) && (0.0..=height).contains(&y));
            }
        }
    }
}
