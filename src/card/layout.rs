//! The scale card as it is printed: where every mark, tick and patch lies, in mm.
//!
//! A card is a paper frame. The specimen lies in or under its opening, in the plane of the print. In
//! each corner stands a black square with one to four white pores, counted clockwise from the corner
//! that is upper left when the name can be read: so any three of them tell which way round the card
//! lies. How far the squares stand apart, in sides of a square, tells which card it is. Along two sides
//! of the opening run millimetre ticks; on the third side lie patches of paper white, mid grey and
//! black.
//!
//! Places are `[x, y]` in mm from the middle of the card, x to the right and y down.

/// How exactly a person checks the printed line against a ruler: to half a division of half a
/// millimetre (`common practice, no source`).
const RULER_READING_MM: f64 = 0.25;
/// Length of the line to be checked with a ruler, mm.
pub const CHECK_MM: f64 = 50.0;
/// Standard uncertainty of the print's size as a share of it, once the line has been checked: a
/// rectangular distribution (JCGM 100:2008, 4.3.7).
pub const PRINT_UNCERTAINTY: f64 = RULER_READING_MM / CHECK_MM / 1.732_050_807_568_877_2;
/// Mid grey, as an sRGB value of 0–1: 119 of 255, which is L* = 50, or 18 % of the light, on a screen.
/// How bright it comes out on paper is up to the printer.
pub const MID_GREY: f64 = 119.0 / 255.0;

/// Distance of pores from the middle of their mark, and their diameter, in sides of the mark.
const PORE_RING: f64 = 0.22;
const PORE_WIDTH: f64 = 0.2;
const LONE_PORE_WIDTH: f64 = 0.26;

/// How dark something is printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tone {
    /// All the ink there is.
    Black,
    /// [`MID_GREY`].
    Grey,
    /// Bare paper.
    White,
}

/// Something to be printed. Places are in mm, x to the right and y down.
#[derive(Debug, Clone, PartialEq)]
pub enum Shape {
    /// A filled upright rectangle.
    Block {
        /// Upper left corner.
        from: [f64; 2],
        /// Width and height.
        size: [f64; 2],
        /// How dark.
        tone: Tone,
    },
    /// A filled circle.
    Disc {
        /// Its middle.
        centre: [f64; 2],
        /// Its diameter.
        width: f64,
        /// How dark.
        tone: Tone,
    },
    /// A straight black line.
    Line {
        /// Where it begins.
        from: [f64; 2],
        /// Where it ends.
        to: [f64; 2],
        /// How wide it is.
        width: f64,
        /// Whether to cut along it.
        is_cut: bool,
    },
    /// Black words.
    Words {
        /// Where the base line begins.
        from: [f64; 2],
        /// Size of the type (its em).
        size: f64,
        /// Whether they read upwards.
        is_turned: bool,
        /// Whether they are bold.
        is_bold: bool,
        /// What they say.
        text: String,
    },
}

/// One size of card.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Card {
    /// Width and height of the opening.
    pub opening_mm: [f64; 2],
    /// Width of the printed band about the opening.
    band_mm: f64,
    /// Side of the square marks.
    pub mark_mm: f64,
    /// Paper between the printed band and the cut.
    margin_mm: f64,
    /// Width of a tick.
    tick_mm: f64,
}

/// All cards, the largest first. From one to the next the distance of the marks changes by a quarter
/// and more, in sides of a mark.
pub const CARDS: [Card; 3] = [
    Card {
        opening_mm: [60.0, 40.0],
        band_mm: 10.0,
        mark_mm: 6.0,
        margin_mm: 1.0,
        tick_mm: 0.2,
    },
    Card {
        opening_mm: [20.0, 15.0],
        band_mm: 5.0,
        mark_mm: 3.2,
        margin_mm: 0.8,
        tick_mm: 0.15,
    },
    Card {
        opening_mm: [10.0, 8.0],
        band_mm: 3.0,
        mark_mm: 2.2,
        margin_mm: 0.6,
        tick_mm: 0.12,
    },
];

/// A tick of the ruler along the opening.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tick {
    /// Whether it stands below the opening, else left of it.
    pub is_below: bool,
    /// Where its middle line begins, at the opening.
    pub from: [f64; 2],
    /// Where its middle line ends.
    pub to: [f64; 2],
    /// Number of the millimetre it stands at.
    pub mm: u32,
}

/// A patch of one tone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Patch {
    /// Its middle.
    pub centre: [f64; 2],
    /// Its side.
    pub side: f64,
    /// How dark.
    pub tone: Tone,
}

impl Card {
    /// Half the distance of the marks' middles, across and down.
    fn reach(&self) -> [f64; 2] {
        self.opening_mm
            .map(|side| f64::midpoint(side, self.band_mm))
    }

    /// Middles of the marks with one, two, three and four pores.
    #[must_use]
    pub fn mark_centres(&self) -> [[f64; 2]; 4] {
        let [x, y] = self.reach();
        [[-x, -y], [x, -y], [x, y], [-x, y]]
    }

    /// Corners of a mark, clockwise from the upper left.
    #[must_use]
    pub fn mark_corners(&self, mark: usize) -> [[f64; 2]; 4] {
        let [x, y] = self.mark_centres()[mark];
        let half = self.mark_mm / 2.0;
        [[-half, -half], [half, -half], [half, half], [-half, half]]
            .map(|[dx, dy]| [x + dx, y + dy])
    }

    /// Width and height of the paper once cut out.
    #[must_use]
    pub fn paper_mm(&self) -> [f64; 2] {
        self.opening_mm
            .map(|side| side + 2.0 * (self.band_mm + self.margin_mm))
    }

    /// The ruler's ticks: below the opening from left to right, then left of it from top to bottom.
    #[must_use]
    pub fn ticks(&self) -> Vec<Tick> {
        let [half_w, half_h] = self.opening_mm.map(|side| side / 2.0);
        let length = |mm: u32| match mm {
            _ if mm.is_multiple_of(10) => 0.46 * self.band_mm,
            _ if mm.is_multiple_of(5) => 0.36 * self.band_mm,
            _ => 0.24 * self.band_mm,
        };
        let gap = 2.0 * self.tick_mm;
        let numbers = |side: f64| (1_u32..).take_while(move |mm| f64::from(*mm) < side);
        let below = numbers(self.opening_mm[0]).map(|mm| {
            let x = f64::from(mm) - half_w;
            Tick {
                is_below: true,
                from: [x, half_h + gap],
                to: [x, half_h + gap + length(mm)],
                mm,
            }
        });
        let beside = numbers(self.opening_mm[1]).map(|mm| {
            let y = f64::from(mm) - half_h;
            Tick {
                is_below: false,
                from: [-half_w - gap, y],
                to: [-half_w - gap - length(mm), y],
                mm,
            }
        });
        below.chain(beside).collect()
    }

    /// White, grey and black.
    #[must_use]
    pub fn patches(&self) -> [Patch; 3] {
        let side = 0.52 * self.band_mm;
        let y = -self.reach()[1];
        let mut place = -1.0;
        [Tone::White, Tone::Grey, Tone::Black].map(|tone| {
            let centre = [place * 1.3 * side, y];
            place += 1.0;
            Patch { centre, side, tone }
        })
    }

    /// The size of the opening in words.
    #[must_use]
    pub fn name(&self) -> String {
        format!("{} × {} mm", self.opening_mm[0], self.opening_mm[1])
    }

    /// All that is printed of the card, its middle at `at`.
    #[must_use]
    pub fn shapes(&self, at: [f64; 2]) -> Vec<Shape> {
        let mut shapes = self.cuts();
        for mark in 0..4 {
            shapes.push(Shape::Block {
                from: self.mark_corners(mark)[0],
                size: [self.mark_mm; 2],
                tone: Tone::Black,
            });
            let [x, y] = self.mark_centres()[mark];
            let width = self.mark_mm * pore_width(mark + 1);
            shapes.extend(pores(mark + 1).into_iter().map(|[dx, dy]| Shape::Disc {
                centre: [x + self.mark_mm * dx, y + self.mark_mm * dy],
                width,
                tone: Tone::White,
            }));
        }
        for Patch { centre, side, tone } in self.patches() {
            let block = |side: f64, tone| Shape::Block {
                from: centre.map(|c| c - side / 2.0),
                size: [side; 2],
                tone,
            };
            if tone == Tone::White {
                // A hairline about it says that it is meant.
                shapes.push(block(side, Tone::Black));
                shapes.push(block(side - 1.2 * self.tick_mm, Tone::White));
            } else {
                shapes.push(block(side, tone));
            }
        }
        for tick in self.ticks() {
            let half = self.tick_mm / 2.0;
            let low = [0, 1].map(|k| tick.from[k].min(tick.to[k]));
            let high = [0, 1].map(|k| tick.from[k].max(tick.to[k]));
            let across = if tick.is_below {
                [half, 0.0]
            } else {
                [0.0, half]
            };
            shapes.push(Shape::Block {
                from: [0, 1].map(|k| low[k] - across[k]),
                size: [0, 1].map(|k| high[k] - low[k] + 2.0 * across[k]),
                tone: Tone::Black,
            });
        }
        shapes.extend(self.words());
        shapes.into_iter().map(|shape| shape.moved(at)).collect()
    }

    /// Where to cut: round the paper and along the opening.
    fn cuts(&self) -> Vec<Shape> {
        [self.paper_mm(), self.opening_mm]
            .into_iter()
            .flat_map(|[width, height]| {
                let (x, y) = (width / 2.0, height / 2.0);
                let corners = [[-x, -y], [x, -y], [x, y], [-x, y]];
                (0..4).map(move |k| Shape::Line {
                    from: corners[k],
                    to: corners[(k + 1) % 4],
                    width: 0.08,
                    is_cut: true,
                })
            })
            .collect()
    }

    /// The name up the right side, and the ruler's numbers where there is room for them.
    fn words(&self) -> Vec<Shape> {
        let size = (0.26 * self.band_mm).max(1.0);
        let x = self.reach()[0] + 0.35 * size;
        let half_h = self.opening_mm[1] / 2.0;
        let mut words = vec![Shape::Words {
            from: [x, half_h - 0.1 * self.band_mm],
            size,
            is_turned: true,
            is_bold: true,
            text: "Poreline".to_owned(),
        }];
        if self.band_mm < 5.0 {
            return words;
        }
        words.push(Shape::Words {
            from: [x, half_h - 0.1 * self.band_mm - 4.6 * size],
            size: 0.8 * size,
            is_turned: true,
            is_bold: false,
            text: self.name(),
        });
        for tick in self.ticks().into_iter().filter(|tick| tick.mm % 10 == 0) {
            let size = 0.8 * size;
            // A digit of the sans-serif face is 0.556 em wide and 0.72 em high.
            let (wide, high) = (2.0 * 0.556 * size, 0.72 * size);
            let from = if tick.is_below {
                [tick.to[0] - wide / 2.0, tick.to[1] + 0.35 * size + high]
            } else {
                [tick.to[0] - 0.35 * size - wide, tick.to[1] + high / 2.0]
            };
            words.push(Shape::Words {
                from,
                size,
                is_turned: false,
                is_bold: false,
                text: tick.mm.to_string(),
            });
        }
        words
    }
}

/// Middles of so many pores in a mark, in sides of the mark from its middle.
#[must_use]
pub fn pores(count: usize) -> Vec<[f64; 2]> {
    if count == 1 {
        return vec![[0.0, 0.0]];
    }
    // Two lie side by side, three with one on top, four in a square.
    let start: f64 = match count {
        2 => 0.0,
        3 => -90.0,
        _ => 45.0,
    };
    let ring = if count == 4 {
        PORE_RING * std::f64::consts::SQRT_2
    } else {
        PORE_RING * 1.1
    };
    let (mut places, mut angle) = (Vec::with_capacity(count), start);
    for _ in 0..count {
        let (sin, cos) = angle.to_radians().sin_cos();
        places.push([ring * cos, ring * sin]);
        angle += 360.0 / count as f64;
    }
    places
}

/// Diameter of each of so many pores, in sides of the mark.
#[must_use]
pub fn pore_width(count: usize) -> f64 {
    if count == 1 {
        LONE_PORE_WIDTH
    } else {
        PORE_WIDTH
    }
}

impl Shape {
    /// The same, elsewhere.
    #[must_use]
    pub fn moved(mut self, by: [f64; 2]) -> Self {
        let add = |p: &mut [f64; 2]| *p = [p[0] + by[0], p[1] + by[1]];
        match &mut self {
            Self::Block { from, .. } | Self::Words { from, .. } => add(from),
            Self::Disc { centre, .. } => add(centre),
            Self::Line { from, to, .. } => {
                add(from);
                add(to);
            }
        }
        self
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn marks_keep_clear_of_cut_ticks_patches_and_each_other() {
        for card in CARDS {
            let paper = card.paper_mm().map(|side| side / 2.0);
            let quiet = 0.13 * card.mark_mm;
            for mark in 0..4 {
                let corners = card.mark_corners(mark);
                let (low, high) = (corners[0], corners[2]);
                assert!(low.iter().zip(paper).all(|(c, side)| c - quiet > -side));
                assert!(high.iter().zip(paper).all(|(c, side)| c + quiet < side));
                let is_clear = |p: [f64; 2], by: f64| {
                    (0..2).any(|k| p[k] + by < low[k] || p[k] - by > high[k])
                };
                for tick in card.ticks() {
                    assert!(
                        is_clear(tick.from, quiet) && is_clear(tick.to, quiet),
                        "{tick:?}"
                    );
                }
                for patch in card.patches() {
                    assert!(
                        is_clear(patch.centre, quiet + patch.side / 2.0),
                        "{patch:?}"
                    );
                }
            }
        }
    }

    #[test]
    fn words_keep_clear_of_the_mark_above_them() {
        for card in CARDS {
            let mark = card.mark_corners(1)[2][1];
            for shape in card.shapes([0.0; 2]) {
                if let Shape::Words {
                    from,
                    size,
                    is_turned: true,
                    text,
                    ..
                } = shape
                {
                    // Letters of the sans-serif face are 0.6 em wide at most in the mean.
                    let end = from[1] - 0.6 * size * text.chars().count() as f64;
                    assert!(end > mark + 0.13 * card.mark_mm, "{text}: {end}");
                }
            }
        }
    }

    #[test]
    fn pores_keep_clear_of_each_other_and_of_the_edge() {
        for count in 1..=4 {
            let places = pores(count);
            let width = pore_width(count);
            assert_eq!(places.len(), count);
            for (i, [x, y]) in places.iter().enumerate() {
                assert!(x.abs().max(y.abs()) + width / 2.0 <= 0.37);
                for [u, v] in &places[..i] {
                    assert!((x - u).hypot(y - v) >= 1.7 * width);
                }
            }
        }
    }

    #[test]
    fn proportions_tell_the_cards_apart() {
        let proportions = CARDS.map(|card| 2.0 * card.reach()[0] / card.mark_mm);
        for pair in proportions.windows(2) {
            assert!(pair[0] > 1.25 * pair[1], "{proportions:?}");
        }
    }
}
