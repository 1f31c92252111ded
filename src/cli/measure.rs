//! `poreline measure`: resolves what was typed, measures photo after photo, prints.

use super::args::MeasureArgs;
use super::files::{Output, OutputError, is_same_file};
use super::ranges::{Comparison, TableError};
use super::settings::{SettingsError, in_options, settings_of};
use super::terminal::harmless;
use super::{Outcome, say};
use crate::Measurement;
use crate::basis::Basis;
use crate::corrections::{CorrectionsError, File};
use crate::export::{json, overlay, pore_table, text};
use crate::photo::{self, Photo};
use crate::progress::{Progress, Stage};
use crate::set_up::{self, SetUp, SetUpError};
use crate::settings::{Measured, NotMeasured, ScaleSource, Settings};
use crate::surface::SurfaceType;
use image::ImageError;
use jiff::Timestamp;
use std::io::{self, IsTerminal as _, Write as _};
use std::path::{Path, PathBuf};
use std::sync::atomic::AtomicBool;

/// Why what was typed cannot be carried out.
#[derive(Debug, thiserror::Error)]
enum UsageError {
    #[error(transparent)]
    Settings(#[from] SettingsError),
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

/// Why one photo has no findings to show.
#[derive(Debug, thiserror::Error)]
enum Failure {
    #[error("{}", in_options(.error, .scale))]
    NotMeasured {
        error: NotMeasured,
        scale: Box<ScaleSource>,
    },
    #[error(transparent)]
    SetUp(#[from] SetUpError),
    #[error(transparent)]
    Corrections(#[from] CorrectionsError),
    #[error("the table of pores could not be made: {0}")]
    Table(#[from] csv::Error),
    #[error("the overlay could not be made: {0}")]
    Overlay(#[from] ImageError),
    #[error(transparent)]
    Output(#[from] OutputError),
}

/// A set-up to be saved once the scale is there.
struct Saving {
    path: PathBuf,
    replace: bool,
}

/// Everything settled, ready to run.
struct Plan {
    photos: Vec<PathBuf>,
    settings: Settings,
    /// The file the corrections came from, and the photo they belong to.
    corrections_of: Option<(PathBuf, String)>,
    as_json: bool,
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
        let first = photos.first().map(PathBuf::as_path);
        let least_wall = args.settings.least_wall;
        let mut settings = settings_of(args.settings, first)?;
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
        let mut corrections_of = None;
        if let Some(path) = args.corrections {
            let file = File::load(&path)?;
            corrections_of = Some((path, file.photo_sha256.clone()));
            settings.corrections = file.corrections();
            if let Some(typed) = least_wall {
                settings.corrections.least_wall = typed;
            }
        }
        Ok(Self {
            settings,
            corrections_of,
            as_json: args.json,
            saving,
            csv,
            overlay,
            comparison: Comparison::planned(args.comparison)?,
            photos,
        })
    }

    /// Measures one photo and writes the files that were asked for.
    fn measure(&self, path: &Path) -> Result<Measurement, Failure> {
        let because = |error| Failure::NotMeasured {
            error,
            scale: Box::new(self.settings.scale.clone()),
        };
        let opened = photo::open(path).map_err(|error| because(error.into()))?;
        self.check_corrections(&opened)?;
        let stop = AtomicBool::new(false);
        let tell = |stage: Stage| show_progress(path, Some(stage));
        let progress = Progress::new(&stop, &tell);
        let measured = self.measure_opened(&opened, &progress, because);
        show_progress(path, None);
        let (
            basis,
            Measured {
                mut measurement,
                left_behind,
                ..
            },
        ) = measured?;
        if left_behind > 0 {
            say(&format!(
                "{left_behind} of the corrections lie beyond what can be straightened, and are not made"
            ));
        }
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

    /// Measures an open photo, and saves its set-up on the way.
    fn measure_opened(
        &self,
        photo: &Photo,
        progress: &Progress<'_>,
        because: impl Fn(NotMeasured) -> Failure,
    ) -> Result<(Basis, Measured), Failure> {
        let basis = self.settings.basis(photo, progress).map_err(&because)?;
        if let Some(saving) = &self.saving {
            saving.save(photo, &basis)?;
        }
        let measured = self.settings.measure_by(photo, &basis, progress);
        Ok((basis, measured.map_err(&because)?))
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
                Failure::NotMeasured {
                    error: NotMeasured::Photo(error),
                    ..
                } => say(&error.to_string()),
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
            write!(out, "{}", harmless(&text::findings(&measurement.findings)))?;
            if let Some(comparison) = &plan.comparison {
                write!(
                    out,
                    "\n{}",
                    harmless(&comparison.text(&measurement.findings))
                )?;
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
        Some(stage) => write!(
            err,
            "\r\x1b[K{}: {} …",
            harmless(&path.to_string_lossy()),
            stage.label()
        ),
        None => write!(err, "\r\x1b[K"),
    };
    let _ = err.flush();
}
