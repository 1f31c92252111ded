//! `poreline measure`: resolves what was typed, measures photo after photo, prints.

use super::args::{MeasureArgs, RulerLine};
use super::files::{Output, OutputError, is_same_file};
use super::ranges::{Comparison, TableError};
use super::{Outcome, say};
use crate::area::{Area, Outline};
use crate::bar::{self, Bar, Search};
use crate::basis::{self, Basis, PlaneError, PlaneSource};
use crate::colour::{White, WhiteError};
use crate::corrections::{Corrections, CorrectionsError, File, LeastWall};
use crate::export::{digits::significant, json, overlay, pore_table, text};
use crate::geometry::{Point, Rect};
use crate::photo::Photo;
use crate::progress::{Progress, Stage};
use crate::ruler::{self, Graduation, RulerError};
use crate::scale::{Scale, ScaleError, UnlikelyScale};
use crate::set_up::{self, Mismatch, SetUp, SetUpError};
use crate::stated::{Stated, StatedError, stated};
use crate::surface::SurfaceType;
use crate::units::{Millimetres, Pixels};
use crate::usable::{self, Usable};
use crate::{MeasureError, Measurement, findings, measure_corrected, photo};
use image::ImageError;
use jiff::Timestamp;
use std::fmt::Write as _;
use std::io::{self, IsTerminal as _, Write as _};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

/// Why what was typed cannot be carried out.
#[derive(Debug, thiserror::Error)]
enum UsageError {
    #[error(
        "without a scale there are no millimetres. Give one of:\n  \
         --points X1,Y1,X2,Y2=LENGTH   two places on the photo, in pixels, and how far apart they are,\n                                \
         such as the 0 and the 10 of a ruler: --points 212,1840,1412,1846=10mm\n  \
         --px-per-mm NUMBER            pixels per millimetre, if you know them from another photo taken\n                                \
         with the same lens, distance and picture size\n  \
         --ruler X1,Y1,X2,Y2=TICKS     a line along a ruler's edge and what lies between two ticks, such\n                                \
         as 1mm or auto; Poreline finds the ticks\n  \
         --bar LENGTH                  how long the scale bar on the photo is; Poreline finds it\n  \
         --card                        Poreline's scale card lies on the surface (`poreline card` prints it)\n  \
         --corners X1,Y1,…,X4,Y4=WxH   the corners of a rectangle of W by H mm on the surface\n  \
         --set-up NAME                 the scale of another photo, saved with --save-set-up NAME\n  \
         --from-file                   what the file says of its scale, as microscopes and scanners write it\n\
         {}`poreline measure --help` says more about the scale",
        proposal(.0.as_ref())
    )]
    NoScale(Option<(PathBuf, Stated)>),
    #[error(transparent)]
    Scale(#[from] ScaleError),
    #[error(
        "{0} names one file, so it goes with one photo; measure the photos one by one, or leave it out"
    )]
    OneFileForManyPhotos(&'static str),
    #[error(
        "{0} does not end in .png, and the overlay is written as PNG; give it a name that says so"
    )]
    OverlayNotPng(PathBuf),
    #[error("--csv and --overlay name the same file; give each its own")]
    SameFileTwice,
    #[error(transparent)]
    Output(#[from] OutputError),
    #[error("{}{}", .0, option_for(.0))]
    SetUp(#[from] SetUpError),
    #[error("{0} is one of the photos, and photos are never altered; choose another name")]
    SetUpIsPhoto(PathBuf),
    #[error(transparent)]
    Ranges(#[from] TableError),
    #[error(transparent)]
    Corrections(#[from] CorrectionsError),
}

/// The option that does what the engine's error advises.
const fn option_for(error: &SetUpError) -> &'static str {
    match error {
        SetUpError::AlreadyThere(_) => " with --replace-set-up",
        _ => "",
    }
}

/// What the first photo's file says, where it can be believed.
fn proposal(said: Option<&(PathBuf, Stated)>) -> String {
    said.map_or_else(String::new, |(path, stated)| {
        format!(
            "The file says {} px per mm ({}); use --from-file to take it: {}\n",
            significant(stated.scale.px_per_mm, 5),
            stated.written_in.words(),
            path.display()
        )
    })
}

/// Why one photo has no findings to show.
#[derive(Debug, thiserror::Error)]
enum Failure {
    #[error(transparent)]
    Photo(#[from] photo::PhotoError),
    #[error(transparent)]
    Measure(#[from] MeasureError),
    #[error(
        "the place {},{} of {option} does not lie on the photo, which is {width} × {height} px; give \
         places of this photo, turned upright, counted from its top left corner",
        .place.x,
        .place.y
    )]
    PlaceOffPhoto {
        place: Point,
        option: &'static str,
        width: u32,
        height: u32,
    },
    #[error(
        "no scale bar was found on the photo. If there is one, give its two ends: \
         --points X1,Y1,X2,Y2={}mm; if it is short, faint or cut off by the photo's edge, use a ruler \
         on another photo with the same lens and distance, and --px-per-mm",
        .0.0
    )]
    NoBar(Millimetres),
    #[error(
        "{} strokes on the photo could be the scale bar. Look which one it is, and give that one:{}",
        .0.len(),
        choices(.0, *.1)
    )]
    SeveralBars(Vec<Bar>, Millimetres),
    #[error("{0}. If the scale is right all the same, add --scale-is-right")]
    UnlikelyScale(#[from] UnlikelyScale),
    #[error("the set-up does not fit: {0}. If it does all the same, add --set-up-fits")]
    SetUpMismatch(#[from] Mismatch),
    #[error(transparent)]
    SetUp(#[from] SetUpError),
    #[error(transparent)]
    Stated(#[from] StatedError),
    #[error(transparent)]
    White(#[from] WhiteError),
    #[error(transparent)]
    Plane(#[from] PlaneError),
    #[error(transparent)]
    Ruler(RulerError),
    #[error(
        "the ticks of the ruler do not tell what lies between two neighbours. Look at the ruler, and \
         give one of:{}",
        ticks(.0, .1)
    )]
    AmbiguousTicks(Vec<Graduation>, RulerLine),
    #[error(transparent)]
    Scale(#[from] ScaleError),
    #[error(transparent)]
    Corrections(#[from] CorrectionsError),
    #[error("the table of pores could not be made: {0}")]
    Table(#[from] csv::Error),
    #[error("the overlay could not be made: {0}")]
    Overlay(#[from] ImageError),
    #[error(transparent)]
    Output(#[from] OutputError),
}

/// Bars to choose from, as one would type them.
fn choices(bars: &[Bar], length: Millimetres) -> String {
    bars.iter().fold(String::new(), |mut list, bar| {
        let [a, b] = bar.ends;
        // Writing to a string cannot fail.
        let _ = write!(
            list,
            "\n  --points {:.1},{:.1},{:.1},{:.1}={}mm",
            a.x, a.y, b.x, b.y, length.0
        );
        list
    })
}

/// What ticks may mean, as one would type it.
fn ticks(possible: &[Graduation], line: &RulerLine) -> String {
    let [a, b] = line.ends;
    possible.iter().fold(String::new(), |mut list, graduation| {
        // Writing to a string cannot fail.
        let _ = write!(
            list,
            "\n  --ruler {},{},{},{}={}",
            a.x,
            a.y,
            b.x,
            b.y,
            graduation.word()
        );
        list
    })
}

/// Where the scale comes from.
enum ScaleSource {
    /// The same for all photos.
    Known(Scale),
    /// Stretches of known length, at the same places on all photos.
    Points(Vec<(Point, Point, Millimetres)>),
    /// The bar of this length on each photo.
    Bar(Millimetres),
    /// The ruler along this line on each photo.
    Ruler(RulerLine),
    /// Something in the plane of the surface, by which each photo is straightened.
    Plane(PlaneSource),
    /// That of another photo, taken by the same camera at the same distance.
    SetUp {
        set_up: Box<SetUp>,
        /// Whether it is used on photos that it does not seem to fit.
        fits: bool,
    },
    /// What each photo's file says of itself.
    File,
}

/// A set-up to be saved once the scale is there.
struct Saving {
    path: PathBuf,
    replace: bool,
}

/// Everything settled, ready to run.
struct Plan {
    photos: Vec<PathBuf>,
    scale: ScaleSource,
    /// The places the scale came from, which have to lie on each photo.
    places: Vec<Point>,
    area: Area,
    /// Whether nothing is to be left out but what was typed.
    whole_photo: bool,
    corrections: Corrections,
    /// The file they came from, and the photo they belong to.
    corrections_of: Option<(PathBuf, String)>,
    /// Something white on each photo, px.
    white: Option<Rect>,
    as_json: bool,
    /// Whether a scale that cannot be is believed.
    scale_is_right: bool,
    saving: Option<Saving>,
    csv: Option<Output>,
    overlay: Option<Output>,
    comparison: Option<Comparison>,
}

impl Plan {
    fn new(args: MeasureArgs) -> Result<Self, UsageError> {
        let MeasureArgs {
            photos, replace, ..
        } = args;
        let stretches: Vec<(Point, Point, Millimetres)> = args
            .points
            .iter()
            .map(|stretch| (stretch.ends[0], stretch.ends[1], stretch.length))
            .collect();
        let plane = match args.corners {
            Some(corners) => Some(PlaneSource::Corners(corners)),
            None => args.card.then_some(PlaneSource::Card),
        };
        let set_up = args.set_up.as_deref().map(saved).transpose()?;
        let scale = match (args.px_per_mm, args.bar, args.ruler) {
            _ if let Some(plane) = plane => ScaleSource::Plane(plane),
            _ if let Some(set_up) = set_up => ScaleSource::SetUp {
                set_up: Box::new(set_up),
                fits: args.set_up_fits,
            },
            _ if args.from_file => ScaleSource::File,
            (Some(scale), ..) => ScaleSource::Known(scale),
            (None, Some(length), _) => ScaleSource::Bar(length),
            (None, None, Some(line)) => ScaleSource::Ruler(line),
            (None, None, None) if stretches.is_empty() => {
                return Err(UsageError::NoScale(stated_by_first(&photos)));
            }
            (None, None, None) => {
                // A mistyped stretch is bad usage, before any photo is opened.
                Scale::from_stretches(&stretches)?;
                ScaleSource::Points(stretches)
            }
        };
        let places = match (args.corners, args.ruler) {
            (Some(corners), _) => corners.places.to_vec(),
            (None, Some(line)) => line.ends.to_vec(),
            (None, None) => args.points.iter().flat_map(|s| s.ends).collect(),
        };
        if photos.len() > 1 {
            for (option, is_given) in [
                ("--csv", args.csv.is_some()),
                ("--overlay", args.overlay.is_some()),
                ("--save-set-up", args.save_set_up.is_some()),
                ("--corrections", args.corrections.is_some()),
            ] {
                if is_given {
                    return Err(UsageError::OneFileForManyPhotos(option));
                }
            }
        }
        if args.csv.is_some() && args.csv == args.overlay {
            return Err(UsageError::SameFileTwice);
        }
        if let Some(path) = &args.overlay
            && !path
                .extension()
                .is_some_and(|end| end.eq_ignore_ascii_case("png"))
        {
            return Err(UsageError::OverlayNotPng(path.clone()));
        }
        let output = |path: Option<PathBuf>| {
            path.map(|path| Output::planned(path, replace, &photos))
                .transpose()
        };
        let (csv, overlay) = (output(args.csv)?, output(args.overlay)?);
        let saving = match args.save_set_up {
            Some(typed) => Some(Saving::planned(&typed, args.replace_set_up, &photos)?),
            None => None,
        };
        let (corrections, corrections_of) = corrections(args.corrections, args.least_wall)?;
        let outline = match (args.area, args.area_polygon) {
            (Some(rect), _) => Outline::Rectangle(rect),
            (None, Some(polygon)) => Outline::Polygon(polygon),
            (None, None) => Outline::WholePhoto,
        };
        Ok(Self {
            scale,
            places,
            area: Area {
                outline,
                left_out: args.leave_out.into_iter().map(Into::into).collect(),
            },
            corrections,
            corrections_of,
            whole_photo: args.whole_photo,
            white: args.white,
            as_json: args.json,
            scale_is_right: args.scale_is_right,
            saving,
            csv,
            overlay,
            comparison: Comparison::planned(args.comparison)?,
            photos,
        })
    }

    /// Measures one photo and writes the files that were asked for.
    fn measure(&self, path: &Path) -> Result<Measurement, Failure> {
        let opened = photo::open(path)?;
        self.check_places(&opened)?;
        self.check_corrections(&opened)?;
        // Whoever gives a white means it, card or no card.
        let given = self
            .white
            .map(|patch| White::of_patch(&opened, patch))
            .transpose()?;
        let stop = AtomicBool::new(false);
        let tell = |stage: Stage| show_progress(path, Some(stage));
        let progress = Progress::new(&stop, &tell);
        let measured = self.basis(&opened, &progress).and_then(|basis| {
            let area = self.area_by(&basis);
            let picture = basis.picture(&opened);
            if !self.scale_is_right {
                let (width, height) = picture.rgb.dimensions();
                let longer_side = Pixels(f64::from(width.max(height)));
                basis.scale.check_likely(longer_side)?;
            }
            if let Some(saving) = &self.saving {
                saving.save(&opened, &basis)?;
            }
            let mut measurement = self.measure_usable(picture, &basis, &area, &progress)?;
            if let Some(white) = given.or(basis.white) {
                measurement.refer_to(&white);
            }
            Ok((basis, measurement))
        });
        show_progress(path, None);
        let (basis, mut measurement) = measured?;
        if let Some(output) = &self.csv {
            output.write(&pore_table::csv(&measurement.regions, &basis.scale)?)?;
            say(&wrote_table(output.path(), &measurement));
        }
        if let Some(output) = &self.overlay {
            let drawn = &measurement.findings.area.drawn;
            let picture = overlay::draw(basis.picture(&opened), drawn, &measurement);
            output.write(&overlay::png(&picture)?)?;
            say(&format!("wrote {}", output.path().display()));
        }
        basis.complete(&mut measurement.findings);
        Ok(measurement)
    }

    /// What a photo is measured by.
    fn basis(&self, photo: &Photo, progress: &Progress<'_>) -> Result<Basis, Failure> {
        match self.scale {
            ScaleSource::Known(scale) => Ok(Basis::known(scale)),
            ScaleSource::Points(ref stretches) => Ok(Basis::points(stretches)?),
            ScaleSource::SetUp { ref set_up, fits } => {
                let mismatch = match set_up.check(photo) {
                    Err(mismatch) if !fits => return Err(mismatch.into()),
                    checked => checked.err(),
                };
                Ok(Basis::set_up(set_up, mismatch.as_ref()))
            }
            ScaleSource::File => Ok(Basis::stated(&stated(photo)?)),
            ScaleSource::Plane(source) => {
                let (straightened, white) = basis::straightened(photo, source, progress)?;
                Ok(Basis::plane(Arc::new(straightened), white))
            }
            ScaleSource::Bar(length) => {
                match bar::find(photo, progress).map_err(MeasureError::from)? {
                    Search::Nothing => Err(Failure::NoBar(length)),
                    Search::Several(bars) => Err(Failure::SeveralBars(bars, length)),
                    Search::One(bar) => Ok(Basis::bar(&bar, length)?),
                }
            }
            ScaleSource::Ruler(line) => {
                match ruler::read(photo, line.ends, line.between, progress) {
                    Ok(reading) => Ok(Basis::ruler(&reading)),
                    Err(RulerError::Ambiguous(possible)) => {
                        Err(Failure::AmbiguousTicks(possible, line))
                    }
                    Err(RulerError::Cancelled(error)) => Err(MeasureError::from(error).into()),
                    Err(error) => Err(Failure::Ruler(error)),
                }
            }
        }
    }

    /// The area as typed, on the picture that is measured, without what the scale was taken from.
    fn area_by(&self, basis: &Basis) -> Area {
        let typed = basis.straightened.as_ref().map_or_else(
            || self.area.clone(),
            |straightened| straightened.area_from_photo(&self.area),
        );
        basis.area(typed)
    }

    /// The corrections on the picture that is measured.
    fn corrections_by(&self, basis: &Basis) -> Corrections {
        let Some(straightened) = &basis.straightened else {
            return self.corrections.clone();
        };
        let moved = straightened.corrections_from_photo(&self.corrections);
        let left_behind = self.corrections.by_hand.len() - moved.by_hand.len();
        if left_behind > 0 {
            say(&format!(
                "{left_behind} of the corrections lie beyond what can be straightened, and are not made"
            ));
        }
        moved
    }

    /// Measures the area as typed, or else what of the photo can be used.
    fn measure_usable(
        &self,
        photo: &Photo,
        basis: &Basis,
        area: &Area,
        progress: &Progress<'_>,
    ) -> Result<Measurement, MeasureError> {
        let corrections = self.corrections_by(basis);
        let measure =
            |area: &Area| measure_corrected(photo, basis.scale, area, &corrections, progress);
        if self.whole_photo {
            return measure(area);
        }
        let usable: Usable = usable::survey(photo, area, progress)?;
        let rest = match area.outline {
            Outline::WholePhoto => usable.within(area),
            // Whoever draws an outline means it.
            Outline::Rectangle(_) | Outline::Polygon(_) => area.clone(),
        };
        let mut measurement = measure(&rest)?;
        if let Some(note) = findings::unusable_parts(&rest, &usable) {
            measurement.findings.add(note);
        }
        Ok(measurement)
    }

    /// Corrections of another photo are none of this one.
    fn check_corrections(&self, photo: &Photo) -> Result<(), CorrectionsError> {
        match &self.corrections_of {
            Some((path, sha256)) if *sha256 != photo.sha256 => Err(CorrectionsError::OtherPhoto {
                path: path.clone(),
                photo: photo.path.clone(),
            }),
            _ => Ok(()),
        }
    }

    /// A scale from places that are not on the photo is a scale of some other photo.
    fn check_places(&self, photo: &Photo) -> Result<(), Failure> {
        let (width, height) = photo.rgb.dimensions();
        let lies_on = |place: &Point| {
            (0.0..=f64::from(width)).contains(&place.x)
                && (0.0..=f64::from(height)).contains(&place.y)
        };
        match self.places.iter().find(|place| !lies_on(place)) {
            Some(&place) => Err(Failure::PlaceOffPhoto {
                place,
                option: match self.scale {
                    ScaleSource::Plane(_) => "--corners",
                    ScaleSource::Ruler(_) => "--ruler",
                    _ => "--points",
                },
                width,
                height,
            }),
            None => Ok(()),
        }
    }
}

impl Saving {
    /// Makes sure, before long work starts, that the set-up can be saved.
    fn planned(typed: &str, replace: bool, photos: &[PathBuf]) -> Result<Self, UsageError> {
        let path = set_up::locate(typed)?;
        if photos.iter().any(|photo| is_same_file(photo, &path)) {
            return Err(UsageError::SetUpIsPhoto(path));
        }
        if !replace && path.symlink_metadata().is_ok() {
            return Err(SetUpError::AlreadyThere(path).into());
        }
        Ok(Self { path, replace })
    }

    fn save(&self, photo: &Photo, basis: &Basis) -> Result<(), Failure> {
        let now = Timestamp::now().strftime("%Y-%m-%dT%H:%M:%SZ").to_string();
        let set_up = SetUp::of(photo, basis.scale, basis.straightened.as_deref(), now)?;
        set_up.save(&self.path, self.replace)?;
        say(&format!(
            "saved the set-up {}: {}",
            self.path.display(),
            set_up.in_words()
        ));
        Ok(())
    }
}

/// The corrections that were typed, with their file and the photo they belong to.
fn corrections(
    path: Option<PathBuf>,
    least_wall: Option<LeastWall>,
) -> Result<(Corrections, Option<(PathBuf, String)>), CorrectionsError> {
    let mut corrections = Corrections::default();
    let mut of = None;
    if let Some(path) = path {
        let file = File::load(&path)?;
        of = Some((path, file.photo_sha256.clone()));
        corrections = file.corrections();
    }
    if let Some(least_wall) = least_wall {
        corrections.least_wall = least_wall;
    }
    Ok((corrections, of))
}

/// The set-up that was typed.
fn saved(typed: &str) -> Result<SetUp, SetUpError> {
    SetUp::load(&set_up::locate(typed)?)
}

/// What the first photo's file says of its scale. It is looked at only to say so, and its own faults
/// are told when it is measured.
fn stated_by_first(photos: &[PathBuf]) -> Option<(PathBuf, Stated)> {
    let path = photos.first()?;
    let photo = photo::open(path).ok()?;
    Some((path.clone(), stated(&photo).ok()?))
}

/// What to say of a table; an empty one wants a reason.
fn wrote_table(path: &Path, measurement: &Measurement) -> String {
    let wrote = format!("wrote {}", path.display());
    if !measurement.regions.is_empty() {
        return wrote;
    }
    match measurement.findings.surface.kind {
        SurfaceType::Undecided => format!(
            "{wrote}; the table is empty, because nothing was counted: the photo does not show \
             what the surface is"
        ),
        SurfaceType::Poroid | SurfaceType::Toothed => {
            format!("{wrote}; the table is empty, because no pores or teeth were found in the area")
        }
        kind => format!(
            "{wrote}; the table is empty, because a {} surface has no pores or teeth",
            kind.word()
        ),
    }
}

/// Carries out `poreline measure`.
pub(super) fn run(args: MeasureArgs) -> Outcome {
    let plan = match Plan::new(args) {
        Ok(plan) => plan,
        Err(error) => {
            say(&error.to_string());
            return Outcome::BadUsage;
        }
    };
    let (mut measured, mut failed) = (0_usize, 0_usize);
    for path in &plan.photos {
        let answer = plan.measure(path);
        match &answer {
            Ok(_) => measured += 1,
            Err(_) => failed += 1,
        }
        if let Err(failure) = &answer {
            match failure {
                // It names the photo itself.
                Failure::Photo(error) => say(&error.to_string()),
                _ => say(&format!("{}: {failure}", path.display())),
            }
        }
        match print(&plan, path, answer, measured > 1) {
            Ok(()) => {}
            // Whoever reads has read enough.
            Err(error) if error.kind() == io::ErrorKind::BrokenPipe => break,
            Err(error) => {
                say(&format!("the findings could not be printed: {error}"));
                return Outcome::NothingDone;
            }
        }
    }
    match (measured, failed) {
        (_, 0) => Outcome::Done,
        (0, _) => Outcome::NothingDone,
        _ => Outcome::SomeFailed,
    }
}

/// Prints findings, or for scripts why there are none; people were told on standard error.
fn print(
    plan: &Plan,
    path: &Path,
    answer: Result<Measurement, Failure>,
    is_further: bool,
) -> io::Result<()> {
    let mut out = io::stdout().lock();
    match answer {
        Ok(measurement) if plan.as_json => {
            writeln!(out, "{}", json::findings(&measurement.findings))?;
        }
        Ok(measurement) => {
            if is_further {
                writeln!(out, "\n{}\n", "─".repeat(80))?;
            }
            write!(out, "{}", text::findings(&measurement.findings))?;
            if let Some(comparison) = &plan.comparison {
                write!(out, "\n{}", comparison.text(&measurement.findings))?;
            }
        }
        Err(failure) if plan.as_json => {
            writeln!(out, "{}", json::failure(path, &failure.to_string()))?;
        }
        Err(_) => {}
    }
    out.flush()
}

/// Shows on a terminal what is being done; `None` wipes it away.
fn show_progress(path: &Path, stage: Option<Stage>) {
    let mut err = io::stderr().lock();
    if !err.is_terminal() {
        return;
    }
    // To the line's start, and clear to its end (ECMA-48 EL).
    let _ = match stage {
        Some(stage) => write!(err, "\r\x1b[K{}: {} …", path.display(), stage.label()),
        None => write!(err, "\r\x1b[K"),
    };
    let _ = err.flush();
}
