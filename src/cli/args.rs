//! What was typed, read into types; nothing is looked up or opened.

use super::batch::args::BatchArgs;
use super::book::args::BookCommand;
use crate::basis::Corners;
use crate::corrections::{LeastWall, NoLeastWall};
use crate::export::card_pdf::Paper;
use crate::export::comparison::cautions;
use crate::geometry::{Point, Polygon, Rect};
use crate::ruler::Between;
use crate::scale::{END_PLACEMENT_PX, Scale, ScaleError};
use crate::tilt::TiltError;
use crate::units::{LengthError, Millimetres};
use clap::{Args, Parser, Subcommand, ValueEnum};
use jiff::civil::Date;
use std::path::PathBuf;

const ABOUT_SCALE: &str = "\
The scale
  A photo knows pixels, not millimetres. So photograph a ruler or a scale bar
  with the pores, lying in the plane of the surface, and tell Poreline one of:
    --bar 5mm                          how long the scale bar on the photo is;
                                       Poreline finds the bar, and says so when
                                       it is not sure which stroke is the bar
    --ruler 310,905,1480,921=1mm       a line along a ruler's edge, from one place
                                       on the photo to another, and what lies
                                       between two neighbouring ticks: 1mm, 0.5mm,
                                       1/16in, or auto where long and short ticks
                                       tell; Poreline finds the ticks
    --points 1296,1136,1504,1136=2mm   two places on the photo that are 2 mm
                                       apart; the farther apart they are, the
                                       surer the scale
    --card                             Poreline's scale card lies in the plane of
                                       the surface (`poreline card` prints it); it
                                       is found, and the tilt of the camera is
                                       taken out
    --corners 210,180,1480,160,1500,1010,190,990=30x20
                                       the four corners of a rectangle of 30 by
                                       20 mm in the plane of the surface, one
                                       after the other round it, the side of 30 mm
                                       first; the tilt is taken out as well; as with
                                       --points, each is taken as placed to a pixel
    --set-up stand                     the scale of another photo by the same camera at
                                       the same distance, saved with --save-set-up
    --from-file                        what the file says of itself, as those of
                                       microscopes and scanners do
    --px-per-mm 104                    pixels per millimetre, where you know them
                                       from another photo with the same lens,
                                       distance and picture size
  A set-up carries how uncertain the scale was on the photo it was saved from. What
  a changed distance, focus or zoom adds is in no interval; photos of another size,
  camera or focal length are refused unless --set-up-fits is added.
  A scale by which the photo would be less than 0.2 mm or more than 1 m across is
  refused unless --scale-is-right is added.
  Any picture viewer that shows the pixel under the pointer gives the places.
  Pixels are counted from the top left corner of the upright photo.

Examples, with the scale bars of the sample images
  poreline measure sample-images/fine-pores.jpg --bar 2mm
  poreline measure sample-images/fine-pores.jpg \\
      --points 1296,1136,1504,1136=2mm --area 100,80,1400,900
  poreline measure sample-images/elongated-pores.jpg \\
      --points 65,1136,475,1136=5mm --area 100,70,1400,920 \\
      --overlay elongated.png --csv elongated.csv
  poreline measure walk/*.jpg --px-per-mm 104 --json > walk.jsonl
  poreline measure ruler.jpg --ruler 310,905,1480,921=1mm --save-set-up stand
  poreline measure evening/*.jpg --set-up stand --json > evening.jsonl

Exit status
  0  every photo was measured     1  no photo could be measured
  2  what was typed is wrong      3  some of several photos could not be measured";

/// Heading of the options that go with a scale.
const SCALE_MORE: &str = "About the scale";

/// The whole command line.
#[derive(Debug, Clone, PartialEq, Parser)]
#[command(
    name = "poreline",
    version,
    about = "Measures the underside of bracket fungi from a macro photo",
    long_about = "Measures the underside of bracket fungi from a macro photo: pores per mm, diameter, \
                  elongation and wall, with an honest uncertainty and the evidence to show for it.\n\n\
                  Without a command the window opens, with the photo given; of several, the first. `poreline measure --help` \
                  tells how to measure from the command line, and where the scale comes from.",
    after_help = cautions(),
    args_conflicts_with_subcommands = true
)]
pub(super) struct Cli {
    #[command(subcommand)]
    pub(super) command: Option<Command>,

    /// Photos for the window; of several the first is opened
    #[arg(value_name = "PHOTO")]
    pub(super) photos: Vec<PathBuf>,
}

/// What to do without a window.
#[derive(Debug, Clone, PartialEq, Subcommand)]
#[expect(
    clippy::large_enum_variant,
    reason = "there is one of it, and it lives as long as the program"
)]
pub(super) enum Command {
    /// Measure photos and print the findings
    #[command(after_help = cautions(), after_long_help = format!("{ABOUT_SCALE}\n{}", cautions()))]
    Measure(MeasureArgs),

    /// Measure a folder of photos, and pick up where it was left
    #[command(after_help = cautions(), after_long_help = format!("{}\n{}", super::batch::args::ABOUT, cautions()))]
    Batch(Box<BatchArgs>),

    /// Make a sheet of scale cards to print and cut out
    Card(CardArgs),

    /// List the set-ups that were saved by name
    SetUps,

    /// Keep vouchers and forays in a folder
    #[command(subcommand, after_help = cautions())]
    Book(BookCommand),

    /// List what is published of which taxon
    #[command(after_help = cautions())]
    Ranges(RangesArgs),
}

/// `poreline ranges` as typed.
#[derive(Debug, Clone, PartialEq, Args)]
pub(super) struct RangesArgs {
    /// Only taxa whose name, or name in a source, begins so
    #[arg(long, value_name = "NAME")]
    pub(super) taxon: Option<String>,

    /// A table of your own beside the one that is part of the program
    #[arg(long, value_name = "FILE.csv")]
    pub(super) ranges: Option<PathBuf>,
}

/// A field and its value, as typed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Field {
    /// Its name in Darwin Core.
    pub(super) term: String,
    /// What it is to hold; empty takes it away.
    pub(super) value: String,
}

/// `poreline card` as typed.
#[derive(Debug, Clone, PartialEq, Args)]
pub(super) struct CardArgs {
    /// Write the sheet to this file, as PDF
    #[arg(long, value_name = "FILE.pdf")]
    pub(super) out: PathBuf,

    /// Paper to print on
    #[arg(long, value_enum, default_value_t = PaperSize::A4)]
    pub(super) paper: PaperSize,

    /// Write over a file that is already there
    #[arg(long)]
    pub(super) replace: bool,
}

/// Paper by name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum PaperSize {
    /// 210 × 297 mm
    A4,
    /// 8½ × 11 inches
    Letter,
}

impl From<PaperSize> for Paper {
    fn from(size: PaperSize) -> Self {
        match size {
            PaperSize::A4 => Self::A4,
            PaperSize::Letter => Self::Letter,
        }
    }
}

/// `poreline measure` as typed.
#[derive(Debug, Clone, PartialEq, Args)]
pub(super) struct MeasureArgs {
    /// Photos to measure: JPEG, PNG, TIFF, WebP or BMP; they are never altered
    #[arg(value_name = "PHOTO", required = true)]
    pub(super) photos: Vec<PathBuf>,

    #[command(flatten)]
    pub(super) settings: SettingsArgs,

    /// Save the scale of this photo, with its uncertainty, camera and size, for --set-up
    #[arg(
        long,
        value_name = "NAME|FILE",
        conflicts_with_all = ["set_up", "from_file"],
        help_heading = SCALE_MORE
    )]
    pub(super) save_set_up: Option<String>,

    /// Save the set-up in place of one that is already there
    #[arg(
        long,
        requires = "save_set_up",
        conflicts_with_all = ["set_up", "from_file"],
        help_heading = SCALE_MORE
    )]
    pub(super) replace_set_up: bool,

    /// Make the corrections that were saved from the window for this photo: pores joined, split, deleted,
    /// added or drawn by hand
    #[arg(long, value_name = "FILE", help_heading = PORES)]
    pub(super) corrections: Option<PathBuf>,

    /// Print one JSON object per photo and line, for scripts
    #[arg(long, help_heading = "Results")]
    pub(super) json: bool,

    /// Write the table of pores to this file, one row a pore
    #[arg(long, value_name = "FILE", help_heading = "Results")]
    pub(super) csv: Option<PathBuf>,

    /// Write the photo with the pores outlined to this file, as PNG
    #[arg(long, value_name = "FILE.png", help_heading = "Results")]
    pub(super) overlay: Option<PathBuf>,

    /// Write over files that are already there
    #[arg(long, help_heading = "Results")]
    pub(super) replace: bool,

    #[command(flatten)]
    pub(super) comparison: ComparisonArgs,
}

/// What photos are measured by, as typed: the same for one photo and for a folder of them.
#[derive(Debug, Clone, PartialEq, Args)]
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is an option that is typed or not"
)]
pub(super) struct SettingsArgs {
    /// The scale, as pixels per millimetre
    #[arg(
        long,
        value_name = "NUMBER",
        value_parser = px_per_mm,
        allow_hyphen_values = true,
        conflicts_with = "points",
        help_heading = "Scale (one of them is needed)"
    )]
    pub(super) px_per_mm: Option<Scale>,

    /// The scale, from two places in pixels and their distance (5, 5mm, 1cm, 500um, 1in); may be
    /// repeated, several stretches make a surer scale
    #[arg(
        long,
        value_name = "X1,Y1,X2,Y2=LENGTH",
        value_parser = points,
        allow_hyphen_values = true,
        help_heading = "Scale (one of them is needed)"
    )]
    pub(super) points: Vec<Stretch>,

    /// The scale, from the scale bar on each photo: its length (5, 5mm, 1cm, 500um, 1in). The bar is
    /// found by itself, from outer end to outer end or from mark to mark, and left out with its label
    #[arg(
        long,
        value_name = "LENGTH",
        value_parser = bar,
        allow_hyphen_values = true,
        conflicts_with_all = ["points", "px_per_mm"],
        help_heading = "Scale (one of them is needed)"
    )]
    pub(super) bar: Option<Millimetres>,

    /// The scale, from Poreline's scale card in the plane of the surface, found by itself on each photo;
    /// tilt is taken out before measuring, and the card is left out
    #[arg(
        long,
        conflicts_with_all = ["points", "px_per_mm", "bar"],
        help_heading = "Scale (one of them is needed)"
    )]
    pub(super) card: bool,

    /// The scale, from the four corners of a rectangle in the plane of the surface, in pixels and in
    /// order round it, and its sides in mm, the first side first; tilt is taken out before measuring
    #[arg(
        long,
        value_name = "X1,Y1,X2,Y2,X3,Y3,X4,Y4=WxH",
        value_parser = corners,
        allow_hyphen_values = true,
        conflicts_with_all = ["points", "px_per_mm", "bar", "card"],
        help_heading = "Scale (one of them is needed)"
    )]
    pub(super) corners: Option<Corners>,

    /// The scale, from a line along a ruler's edge in pixels and what lies between two neighbouring
    /// ticks (mm, 0.5mm, 1/16in, auto). The ticks are found by themselves, and left out
    #[arg(
        long,
        value_name = "X1,Y1,X2,Y2=TICKS",
        value_parser = ruler,
        allow_hyphen_values = true,
        conflicts_with_all = ["points", "px_per_mm", "bar", "card", "corners"],
        help_heading = "Scale (one of them is needed)"
    )]
    pub(super) ruler: Option<RulerLine>,

    /// The scale that another photo was saved with, by the same camera at the same distance: the name of
    /// a set-up, or its file
    #[arg(
        long,
        value_name = "NAME|FILE",
        conflicts_with_all = ["points", "px_per_mm", "bar", "card", "corners", "ruler"],
        help_heading = "Scale (one of them is needed)"
    )]
    pub(super) set_up: Option<String>,

    /// The scale, as the file says of itself: OME-TIFF, TIFF, PNG, JPEG. What cameras and picture
    /// programs fill in without knowing the object is not taken
    #[arg(
        long,
        conflicts_with_all = ["points", "px_per_mm", "bar", "card", "corners", "ruler", "set_up"],
        help_heading = "Scale (one of them is needed)"
    )]
    pub(super) from_file: bool,

    /// Use the set-up on photos of another size, camera or focal length too
    #[arg(
        long,
        requires = "set_up",
        // A requirement that clashes with another option counts as met, so this is said too.
        conflicts_with_all = ["points", "px_per_mm", "bar", "card", "corners", "ruler", "from_file"],
        help_heading = SCALE_MORE
    )]
    pub(super) set_up_fits: bool,

    /// Measure also where the photo would be less than 0.2 mm or more than 1 m across
    #[arg(long, help_heading = SCALE_MORE)]
    pub(super) scale_is_right: bool,

    /// Measure only this rectangle, in pixels: left edge, top edge, width, height
    #[arg(
        long,
        value_name = "X,Y,W,H",
        value_parser = rectangle,
        allow_hyphen_values = true,
        conflicts_with = "area_polygon",
        help_heading = "Area (all that can be measured unless given)"
    )]
    pub(super) area: Option<Rect>,

    /// Measure only what lies inside this outline, in pixels
    #[arg(
        long,
        value_name = "X1,Y1,X2,Y2,X3,Y3…",
        value_parser = polygon,
        allow_hyphen_values = true,
        help_heading = "Area (all that can be measured unless given)"
    )]
    pub(super) area_polygon: Option<Polygon>,

    /// Leave out what lies inside this outline, such as a ruler or a damaged spot; may be repeated
    #[arg(
        long,
        value_name = "X1,Y1,X2,Y2,X3,Y3…",
        value_parser = polygon,
        allow_hyphen_values = true,
        help_heading = "Area (all that can be measured unless given)"
    )]
    pub(super) leave_out: Vec<Polygon>,

    /// Measure all of the photo. Unless this or an area is given, what cannot be measured is left
    /// out by itself: a dark surround, a printed strip, parts out of focus, without pores, overexposed
    /// or not of this surface; a note then tells what and how much
    #[arg(
        long,
        conflicts_with_all = ["area", "area_polygon"],
        help_heading = "Area (all that can be measured unless given)"
    )]
    pub(super) whole_photo: bool,

    /// How high a wall has to be to part two pores, as a multiple of the usual height, from 0.5 (faint
    /// walls part pores too) to 2 (only high ones do). How accurate figures are was proved for 1 only
    #[arg(
        long,
        value_name = "MULTIPLE",
        value_parser = least_wall,
        allow_hyphen_values = true,
        help_heading = PORES
    )]
    pub(super) least_wall: Option<LeastWall>,

    /// Refer the colour to something white on the photo, in pixels: left edge, top edge, width, height. It
    /// has to lie beside the surface, in the same light, and not be overexposed; it is taken to have
    /// L* 95, as white paper has. With --card the card's white patch serves unless this is given
    #[arg(
        long,
        value_name = "X,Y,W,H",
        value_parser = rectangle,
        allow_hyphen_values = true,
        help_heading = "Colour (indicative only without a white)"
    )]
    pub(super) white: Option<Rect>,
}

/// Heading of the options that change which pores are found.
const PORES: &str = "Pores (as found unless given)";

/// Heading of the options that go with a comparison.
const COMPARISON: &str = "Comparison with published ranges";

/// What findings are compared with, and what else was seen of the specimen.
#[derive(Debug, Clone, PartialEq, Args)]
pub(super) struct ComparisonArgs {
    /// Say which published ranges the findings agree with, and which they speak against
    #[arg(long, conflicts_with = "json", help_heading = COMPARISON)]
    pub(super) compare: bool,

    /// A table of your own beside the one that is part of the program
    #[arg(long, value_name = "FILE.csv", requires = "compare", help_heading = COMPARISON)]
    pub(super) ranges: Option<PathBuf>,

    /// Wood it grew on
    #[arg(long, value_enum, requires = "compare", help_heading = COMPARISON)]
    pub(super) host_wood: Option<HostWood>,

    /// Tree it grew on, such as "Fagus sylvatica" or Fagus
    #[arg(long, value_name = "TREE", requires = "compare", help_heading = COMPARISON)]
    pub(super) host_taxon: Option<String>,

    /// Colour of the fresh underside in words, such as "cream to ochre"
    #[arg(long, value_name = "WORDS", requires = "compare", help_heading = COMPARISON)]
    pub(super) underside_colour: Option<String>,

    /// Width of the widest cap, cm
    #[arg(
        long,
        value_name = "CM",
        value_parser = centimetres,
        allow_hyphen_values = true,
        requires = "compare",
        help_heading = COMPARISON
    )]
    pub(super) cap_width_cm: Option<f64>,
}

/// Kind of wood by name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum HostWood {
    /// A broad-leaved tree
    Hardwood,
    /// A conifer
    Conifer,
}

/// Two places and their distance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Stretch {
    /// Where it begins and ends, px.
    pub(super) ends: [Point; 2],
    /// How long it is.
    pub(super) length: Millimetres,
}

/// A line along a ruler and what its ticks mean.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct RulerLine {
    /// Where it begins and ends, px.
    pub(super) ends: [Point; 2],
    /// What lies between two neighbouring ticks.
    pub(super) between: Between,
}

/// Why a value as typed could not be used.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub(super) enum ArgError {
    #[error("“{0}” is not a number; write it like 120 or 0.5, with commas only between numbers")]
    NotANumber(String),
    #[error("{found} numbers were given where {wanted} are needed")]
    WrongCount { found: usize, wanted: &'static str },
    #[error("the length is missing; end it with the distance of the two places, such as =10mm")]
    NoLength,
    #[error("the size is missing; end it with the rectangle's sides in mm, such as =30x20")]
    NoSides,
    #[error(
        "what lies between two ticks is missing; end it with that, such as =1mm, =1/16in or =auto"
    )]
    NoTicks,
    #[error(transparent)]
    LeastWall(#[from] NoLeastWall),
    #[error("the width and the height must be greater than zero")]
    NoExtent,
    #[error("these corners enclose nothing; give them in order round the outline")]
    NothingEnclosed,
    #[error("“{0}” has no value; write it as term=value, such as locality=\"Alder Fen\"")]
    NoValue(String),
    #[error("“{0}” is not a day; write it as ISO 8601, such as 2026-10-04")]
    NotADay(String),
    #[error(transparent)]
    Length(#[from] LengthError),
    #[error(transparent)]
    Scale(#[from] ScaleError),
    #[error(transparent)]
    Tilt(#[from] TiltError),
}

/// Reads `term=value`.
pub(super) fn field(typed: &str) -> Result<Field, ArgError> {
    let (term, value) = typed
        .split_once('=')
        .ok_or_else(|| ArgError::NoValue(typed.to_owned()))?;
    Ok(Field {
        term: term.trim().to_owned(),
        value: value.trim().to_owned(),
    })
}

/// Reads a day.
pub(super) fn day(typed: &str) -> Result<String, ArgError> {
    match typed.trim().parse::<Date>() {
        Ok(day) => Ok(day.to_string()),
        Err(_) => Err(ArgError::NotADay(typed.to_owned())),
    }
}

fn centimetres(typed: &str) -> Result<f64, ArgError> {
    match number(typed)? {
        width if width > 0.0 => Ok(width),
        _ => Err(LengthError::NotPositive(typed.to_owned()).into()),
    }
}

fn least_wall(typed: &str) -> Result<LeastWall, ArgError> {
    Ok(LeastWall::new(number(typed)?)?)
}

fn px_per_mm(typed: &str) -> Result<Scale, ArgError> {
    Ok(Scale::given(number(typed)?)?)
}

fn bar(typed: &str) -> Result<Millimetres, ArgError> {
    Ok(typed.parse()?)
}

fn points(typed: &str) -> Result<Stretch, ArgError> {
    let (places, length) = typed.split_once('=').ok_or(ArgError::NoLength)?;
    let [x1, y1, x2, y2] = exactly(places, "four, x1,y1,x2,y2,")?;
    let length: Millimetres = length.parse()?;
    let ends = [Point::new(x1, y1), Point::new(x2, y2)];
    Scale::from_points(ends[0], ends[1], length)?;
    Ok(Stretch { ends, length })
}

fn corners(typed: &str) -> Result<Corners, ArgError> {
    let (places, sides) = typed.split_once('=').ok_or(ArgError::NoSides)?;
    let numbers: [f64; 8] = exactly(places, "eight, x1,y1,x2,y2,x3,y3,x4,y4,")?;
    let (width, height) = sides.split_once(['x', '×', 'X']).ok_or(ArgError::NoSides)?;
    let corners = Corners {
        places: [0, 2, 4, 6].map(|k| Point::new(numbers[k], numbers[k + 1])),
        sides: [width.parse()?, height.parse()?],
        placement_px: END_PLACEMENT_PX,
    };
    // Whether they can be a rectangle's corners at all does not depend on the photo.
    corners.plane(Polygon::new(corners.places.to_vec()).bounds())?;
    Ok(corners)
}

fn ruler(typed: &str) -> Result<RulerLine, ArgError> {
    let (places, ticks) = typed.split_once('=').ok_or(ArgError::NoTicks)?;
    let [x1, y1, x2, y2] = exactly(places, "four, x1,y1,x2,y2,")?;
    let ends = [Point::new(x1, y1), Point::new(x2, y2)];
    let between = match ticks.trim() {
        "" => return Err(ArgError::NoTicks),
        "auto" => Between::Unknown,
        "mm" => Between::Known(Millimetres(1.0)),
        ticks => Between::Known(fraction(ticks)?),
    };
    Ok(RulerLine { ends, between })
}

/// A length, or a part of one such as `1/16in`.
fn fraction(typed: &str) -> Result<Millimetres, ArgError> {
    let Some((above, below)) = typed.split_once('/') else {
        return Ok(typed.parse()?);
    };
    let unit_at = below
        .find(|c: char| !c.is_ascii_digit())
        .unwrap_or(below.len());
    let (divisor, unit) = below.split_at(unit_at);
    let whole: Millimetres = format!("{above}{unit}").parse()?;
    let part = whole.0 / number(divisor)?;
    if part > 0.0 && part.is_finite() {
        Ok(Millimetres(part))
    } else {
        Err(LengthError::NotPositive(typed.to_owned()).into())
    }
}

fn rectangle(typed: &str) -> Result<Rect, ArgError> {
    let [x, y, width, height] = exactly(typed, "four, x,y,w,h,")?;
    if width > 0.0 && height > 0.0 {
        Ok(Rect {
            x,
            y,
            width,
            height,
        })
    } else {
        Err(ArgError::NoExtent)
    }
}

fn polygon(typed: &str) -> Result<Polygon, ArgError> {
    let numbers = numbers(typed)?;
    let (corners, odd) = numbers.as_chunks::<2>();
    if corners.len() < 3 || !odd.is_empty() {
        return Err(ArgError::WrongCount {
            found: numbers.len(),
            wanted: "two for each of at least three corners, x1,y1,x2,y2,x3,y3,",
        });
    }
    let polygon = Polygon::new(corners.iter().map(|&[x, y]| Point::new(x, y)).collect());
    if polygon.area() > 0.0 {
        Ok(polygon)
    } else {
        Err(ArgError::NothingEnclosed)
    }
}

fn exactly<const N: usize>(typed: &str, wanted: &'static str) -> Result<[f64; N], ArgError> {
    numbers(typed)?
        .try_into()
        .map_err(|numbers: Vec<f64>| ArgError::WrongCount {
            found: numbers.len(),
            wanted,
        })
}

fn numbers(typed: &str) -> Result<Vec<f64>, ArgError> {
    typed.split(',').map(number).collect()
}

fn number(typed: &str) -> Result<f64, ArgError> {
    match typed.trim().parse() {
        Ok(number) if f64::is_finite(number) => Ok(number),
        _ => Err(ArgError::NotANumber(typed.to_owned())),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::CommandFactory as _;

    #[test]
    fn the_command_line_is_consistent() {
        Cli::command().debug_assert();
    }

    #[test]
    fn corners_and_sides_make_a_rectangle() {
        let read = corners("100,100,700,100,700,500,100,500=30x2cm").expect("a rectangle");
        assert_eq!(read.places[2], Point::new(700.0, 500.0));
        assert_eq!(read.sides, [Millimetres(30.0), Millimetres(20.0)]);
        for (typed, words) in [
            ("100,100,700,100,700,500,100,500", "size is missing"),
            ("100,100,700,100,700,500,100,500=30", "size is missing"),
            ("100,100,700,100,700,500=30x20", "6 numbers"),
            ("100,100,700,100,700,500,100,500=0x20", "greater than zero"),
            ("100,100,700,500,700,100,100,500=30x20", "cross"),
            ("100,100,700,100,700,500,400,300=30x20", "one line"),
            ("100,100,700,100,700,500,500,250=30x20", "inside"),
            ("100,100,101,100,101,101,100,101=30x20", "close together"),
        ] {
            let error = corners(typed).expect_err(typed).to_string();
            assert!(error.contains(words), "{typed}: {error}");
        }
    }

    #[test]
    fn two_points_and_a_length_make_a_scale() {
        for (typed, px_per_mm) in [
            ("0,0,30,40=5", 10.0),
            ("0,0,30,40=5 mm", 10.0),
            ("-10.5, 7, 89.5, 7 = 1cm", 10.0),
            ("0,0,0,100=500um", 200.0),
            ("0,0,254,0=1in", 10.0),
        ] {
            let Stretch { ends, length } =
                points(typed).unwrap_or_else(|error| panic!("{typed}: {error}"));
            let found = ends[0].distance(ends[1]) / length.0;
            assert!((found - px_per_mm).abs() < 1e-12, "{typed}");
        }
    }

    #[test]
    fn points_that_make_no_scale_are_refused_with_the_reason() {
        for (typed, reason) in [
            ("0,0,30,40", "length is missing"),
            ("0,0,30=5", "3 numbers"),
            ("0,0,30,40,50=5", "5 numbers"),
            ("0,0,30,forty=5", "“forty” is not a number"),
            ("0,0,30,=5", "“” is not a number"),
            ("0,0,inf,0=5", "“inf” is not a number"),
            ("0,0,NaN,0=5", "“NaN” is not a number"),
            ("7,7,7,7=5", "same place"),
            ("0,0,30,40=0", "greater than zero"),
            ("0,0,30,40=-5", "greater than zero"),
            ("0,0,30,40=5 ells", "not a length"),
        ] {
            let error = points(typed).expect_err(typed).to_string();
            assert!(error.contains(reason), "{typed}: {error}");
        }
    }

    #[test]
    fn a_line_along_a_ruler_says_what_its_ticks_mean() {
        for (typed, mm) in [
            ("0,0,300,0=mm", 1.0),
            ("0,0,300,0=1mm", 1.0),
            ("0,0,300,0=0.5mm", 0.5),
            ("0,0,300,0=1/16in", 25.4 / 16.0),
            ("0,0,300,0=1/2 mm", 0.5),
        ] {
            let Ok(RulerLine {
                between: Between::Known(length),
                ..
            }) = ruler(typed)
            else {
                panic!("{typed}");
            };
            assert!((length.0 - mm).abs() < 1e-12, "{typed}");
        }
        let auto = ruler("0,0,300,0=auto").map(|line| line.between);
        assert_eq!(auto, Ok(Between::Unknown));
        for typed in [
            "0,0,300,0",
            "0,0,300,0=",
            "0,0,300=mm",
            "0,0,300,0=1/0in",
            "0,0,300,0=0/2in",
            "0,0,300,0=-1/2in",
            "0,0,300,0=0",
            "0,0,300,0=-1mm",
            "0,0,300,0=NaN",
            "0,0,300,0=ells",
        ] {
            assert!(ruler(typed).is_err(), "{typed}");
        }
    }

    #[test]
    fn pixels_per_millimetre_are_more_than_none() {
        assert!(px_per_mm("120.5").is_ok());
        for typed in [
            "0", "-0", "-3", "1e-400", "1e400", "nan", "inf", "", "12,5", "12 px",
        ] {
            assert!(px_per_mm(typed).is_err(), "{typed}");
        }
    }

    #[test]
    fn bars_have_a_length() {
        let endless = "9".repeat(400);
        for typed in [
            "0", "0mm", "-0", "-5mm", "NaN", "inf", "1e-3", "", "mm", &endless,
        ] {
            assert!(bar(typed).is_err(), "{typed}");
        }
    }

    #[test]
    fn rectangles_have_extent() {
        let rect = rectangle("10,20,300,400").expect("a rectangle");
        assert_eq!(
            (rect.x, rect.y, rect.width, rect.height),
            (10.0, 20.0, 300.0, 400.0)
        );
        assert_eq!(rectangle("10,20,0,400"), Err(ArgError::NoExtent));
        assert_eq!(rectangle("10,20,5,-1"), Err(ArgError::NoExtent));
        assert!(rectangle("10,20,300").is_err());
    }

    #[test]
    fn polygons_have_three_corners_and_enclose_something() {
        assert_eq!(polygon("0,0,10,0,0,10").map(|p| p.area()), Ok(50.0));
        assert!(matches!(
            polygon("0,0,10,0"),
            Err(ArgError::WrongCount { found: 4, .. })
        ));
        assert!(matches!(
            polygon("0,0,10,0,0,10,5"),
            Err(ArgError::WrongCount { found: 7, .. })
        ));
        assert_eq!(polygon("0,0,10,10,20,20"), Err(ArgError::NothingEnclosed));
    }

    #[test]
    fn one_scale_at_most_and_one_outline_at_most() {
        let typed = |options: &str| {
            Cli::try_parse_from(
                ["poreline", "measure", "a.jpg"]
                    .into_iter()
                    .chain(options.split(' ')),
            )
        };
        assert!(
            typed("--px-per-mm 12 --area 0,0,5,5 --leave-out 1,1,2,1,1,2 --leave-out 3,3,4,3,3,4")
                .is_ok()
        );
        assert!(typed("--px-per-mm 12 --points 0,0,1,1=1").is_err());
        assert!(typed("--px-per-mm 12 --px-per-mm 13").is_err());
        assert!(typed("--bar 5mm").is_ok());
        assert!(typed("--bar 5 --px-per-mm 12").is_err());
        assert!(typed("--bar 5 --points 0,0,1,1=1").is_err());
        assert!(typed("--bar -5").is_err());
        assert!(typed("--ruler 0,0,300,0=mm").is_ok());
        assert!(typed("--ruler 0,0,300,0=mm --bar 5").is_err());
        assert!(typed("--ruler 0,0,300,0=mm --points 0,0,1,1=1").is_err());
        assert!(typed("--ruler 0,0,300,0=mm --px-per-mm 12").is_err());
        assert!(typed("--set-up stand --set-up-fits").is_ok());
        assert!(typed("--set-up stand --px-per-mm 12").is_err());
        assert!(typed("--set-up stand --from-file").is_err());
        assert!(typed("--set-up stand --save-set-up other").is_err());
        assert!(typed("--from-file --bar 5").is_err());
        assert!(typed("--bar 5 --save-set-up stand --replace-set-up").is_ok());
        assert!(typed("--bar 5 --replace-set-up").is_err());
        assert!(typed("--bar 5 --set-up-fits").is_err());
        assert!(typed("--from-file --replace-set-up").is_err());
        assert!(typed("--area 0,0,5,5 --area-polygon 0,0,5,0,0,5").is_err());
        assert!(typed("--area -5,-5,50,50").is_ok());
    }

    #[test]
    fn without_a_command_photos_go_to_the_window() {
        let cli = Cli::try_parse_from(["poreline", "a.jpg", "b.jpg"]).expect("two photos");
        assert!(cli.command.is_none());
        assert_eq!(cli.photos.len(), 2);
    }
}
