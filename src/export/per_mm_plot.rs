//! Figures per mm of many photos by group, as one SVG picture: each photo a ring with its 95 % interval,
//! each group's pooled figure a filled diamond with its own. Colours are those of Okabe & Ito (2008), and
//! shapes differ as well.

use super::html_text::escaped;
use crate::findings::Estimate;
use std::fmt::Write as _;

/// Width of the whole, and of the column of names, mm.
const WIDTH_MM: f64 = 180.0;
const NAMES_MM: f64 = 45.0;
/// Free at the right, mm.
const RIGHT_MM: f64 = 6.0;
/// Height of a photo's line and of a group's own, mm.
const PHOTO_MM: f64 = 3.0;
const GROUP_MM: f64 = 5.0;
/// Above the first group, for the heading; below the last, for the axis, mm.
const ABOVE_MM: f64 = 13.0;
const BELOW_MM: f64 = 12.0;
/// Height of letters, mm.
const LETTERS_MM: f64 = 2.8;
/// Letters of a name that fit beside the plot.
const LONGEST_NAME: usize = 26;
/// Marks on the axis, about.
const MARKS: f64 = 6.0;

/// Photos that belong together.
#[derive(Debug, Clone, PartialEq)]
pub struct Group {
    /// What they belong to.
    pub name: String,
    /// Figures of the photos.
    pub photos: Vec<Estimate>,
    /// The pooled figure, where there is one.
    pub pooled: Option<Estimate>,
}

/// The picture; `None` where no group has a figure.
#[must_use]
pub fn svg(groups: &[Group]) -> Option<String> {
    let groups: Vec<&Group> = groups.iter().filter(|g| !g.photos.is_empty()).collect();
    let all = || groups.iter().flat_map(|g| g.photos.iter().chain(&g.pooled));
    let low = all().map(|e| e.low.min(e.value)).reduce(f64::min)?;
    let high = all().map(|e| e.high.max(e.value)).reduce(f64::max)?;
    let axis = Axis::over(low, high);
    let lines: f64 = groups.iter().map(|group| height(group)).sum();
    let foot = ABOVE_MM + lines;
    let tall = foot + BELOW_MM;
    let mut out = String::new();
    // Writing to a string cannot fail.
    let _ = writeln!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{WIDTH_MM}mm\" height=\"{tall:.1}mm\" \
         viewBox=\"0 0 {WIDTH_MM} {tall:.1}\" role=\"img\" font-family=\"Inter, 'Helvetica Neue', Arial, sans-serif\" \
         font-size=\"{LETTERS_MM}\" fill=\"#1c1c1c\">\n\
         <title>Pores, teeth, gills or hollows per mm, by group</title>\n\
         <rect width=\"{WIDTH_MM}\" height=\"{tall:.1}\" fill=\"#fff\"/>"
    );
    legend(&mut out);
    for mark in axis.marks() {
        let x = axis.place(mark);
        let _ = writeln!(
            out,
            "<line x1=\"{x:.2}\" y1=\"{ABOVE_MM}\" x2=\"{x:.2}\" y2=\"{foot:.2}\" stroke=\"#ddd\" stroke-width=\"0.2\"/>\
             <text x=\"{x:.2}\" y=\"{:.2}\" text-anchor=\"middle\">{}</text>",
            foot + 4.0,
            axis.words(mark)
        );
    }
    let middle = f64::midpoint(NAMES_MM, WIDTH_MM - RIGHT_MM);
    let _ = writeln!(
        out,
        "<text x=\"{middle:.2}\" y=\"{:.2}\" text-anchor=\"middle\">per mm</text>",
        foot + 9.0
    );
    let mut y = ABOVE_MM;
    for (at, group) in groups.iter().enumerate() {
        if at % 2 == 1 {
            let _ = writeln!(
                out,
                "<rect x=\"0\" y=\"{y:.2}\" width=\"{WIDTH_MM}\" height=\"{:.2}\" fill=\"#000\" fill-opacity=\"0.04\"/>",
                height(group)
            );
        }
        put(&mut out, group, y, &axis);
        y += height(group);
    }
    out.push_str("</svg>\n");
    Some(out)
}

fn height(group: &Group) -> f64 {
    group.photos.len() as f64 * PHOTO_MM + GROUP_MM
}

fn legend(out: &mut String) {
    ring(out, NAMES_MM + 2.0, 5.0);
    diamond(out, NAMES_MM + 52.0, 5.0);
    let _ = writeln!(
        out,
        "<text x=\"{:.1}\" y=\"6\">one photo, 95 % interval</text>\
         <text x=\"{:.1}\" y=\"6\">all photos of a group together</text>",
        NAMES_MM + 5.0,
        NAMES_MM + 55.5
    );
}

fn put(out: &mut String, group: &Group, top: f64, axis: &Axis) {
    let mut name: String = group.name.chars().take(LONGEST_NAME).collect();
    if name.chars().count() < group.name.chars().count() {
        name.pop();
        name.push('…');
    }
    let _ = writeln!(
        out,
        "<text x=\"{:.1}\" y=\"{:.2}\" text-anchor=\"end\"><title>{}</title>{}</text>",
        NAMES_MM - 3.0,
        top + height(group) / 2.0 + LETTERS_MM / 3.0,
        escaped(&group.name),
        escaped(&name)
    );
    let mut y = top + 1.0 + PHOTO_MM / 2.0;
    for photo in &group.photos {
        bar(out, photo, y, axis, "#0072b2", 0.3);
        ring(out, axis.place(photo.value), y);
        y += PHOTO_MM;
    }
    if let Some(pooled) = &group.pooled {
        y += 0.5;
        bar(out, pooled, y, axis, "#d55e00", 0.6);
        diamond(out, axis.place(pooled.value), y);
    }
}

fn bar(out: &mut String, estimate: &Estimate, y: f64, axis: &Axis, colour: &str, width: f64) {
    let _ = writeln!(
        out,
        "<line x1=\"{:.2}\" y1=\"{y:.2}\" x2=\"{:.2}\" y2=\"{y:.2}\" stroke=\"{colour}\" stroke-width=\"{width}\"/>",
        axis.place(estimate.low),
        axis.place(estimate.high)
    );
}

fn ring(out: &mut String, x: f64, y: f64) {
    let _ = writeln!(
        out,
        "<circle cx=\"{x:.2}\" cy=\"{y:.2}\" r=\"0.9\" fill=\"#fff\" stroke=\"#0072b2\" stroke-width=\"0.4\"/>"
    );
}

fn diamond(out: &mut String, x: f64, y: f64) {
    let _ = writeln!(
        out,
        "<path d=\"M{:.2} {y:.2}L{x:.2} {:.2}L{:.2} {y:.2}L{x:.2} {:.2}Z\" fill=\"#d55e00\"/>",
        x - 1.6,
        y - 1.2,
        x + 1.6,
        y + 1.2
    );
}

/// The axis from a round figure to a round figure.
struct Axis {
    from: f64,
    step: f64,
    steps: u32,
    decimals: usize,
}

impl Axis {
    fn over(low: f64, high: f64) -> Self {
        let span = (high - low).max(0.02 * high.abs()).max(1e-6);
        let decade = 10_f64.powf((span / MARKS).log10().floor());
        let step = [1.0, 2.0, 5.0, 10.0]
            .map(|digit| digit * decade)
            .into_iter()
            .find(|step| span / step <= MARKS)
            .unwrap_or(10.0 * decade);
        let from = (low / step).floor() * step;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a few marks"
        )]
        let (steps, decimals) = (
            ((high - from) / step).ceil().max(1.0) as u32,
            (-step.log10().floor()).max(0.0) as usize,
        );
        Self {
            from,
            step,
            steps,
            decimals,
        }
    }

    fn marks(&self) -> impl Iterator<Item = f64> + '_ {
        (0..=self.steps).map(|n| self.from + f64::from(n) * self.step)
    }

    fn words(&self, mark: f64) -> String {
        format!("{mark:.*}", self.decimals)
    }

    fn place(&self, value: f64) -> f64 {
        let room = WIDTH_MM - RIGHT_MM - NAMES_MM;
        NAMES_MM + room * (value - self.from) / (self.step * f64::from(self.steps))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn estimate(value: f64) -> Estimate {
        Estimate {
            value,
            low: value - 0.25,
            high: value + 0.25,
        }
    }

    #[test]
    fn every_photo_is_a_ring_and_every_pooled_figure_a_diamond() {
        let groups = [
            Group {
                name: "AF-1 <&>".to_owned(),
                photos: vec![estimate(4.0), estimate(4.25)],
                pooled: Some(estimate(4.125)),
            },
            Group {
                name: "AF-2".to_owned(),
                photos: vec![estimate(2.0)],
                pooled: None,
            },
        ];
        let picture = svg(&groups).expect("figures");
        // One of each is the legend's.
        assert_eq!(picture.matches("<circle").count(), 3 + 1);
        assert_eq!(picture.matches("<path").count(), 1 + 1);
        assert!(picture.contains("AF-1 &lt;&amp;&gt;"));
        assert_eq!(svg(&[]), None);
    }

    #[test]
    fn the_axis_begins_and_ends_with_round_figures_about_all_of_it() {
        for (low, high) in [(1.75, 4.5), (0.2, 0.21), (3.0, 3.0), (0.0, 100.0)] {
            let axis = Axis::over(low, high);
            let marks: Vec<f64> = axis.marks().collect();
            assert!(
                marks[0] <= low && marks[marks.len() - 1] >= high,
                "{marks:?}"
            );
            assert!((2..=8).contains(&marks.len()), "{marks:?}");
        }
    }
}
