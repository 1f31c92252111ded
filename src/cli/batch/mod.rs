//! `poreline batch`: measures a folder of photos, tells how far it is, and makes the results.

pub(in crate::cli) mod args;
mod printer;
mod watch;

use super::settings::{SettingsError, settings_of};
use super::{Outcome, say};
use crate::batch::{
    self, Batch, Entering, EnteringError, Extras, Glances, Grouping, GroupingError, JoinError,
    ListError, Listing, Made, Results, ResultsError, RunError, RunList, State, half_of_the_machine,
};
use crate::settings::Settings;
use args::{BatchArgs, BatchCommand, GroupingArgs, JoinArgs};
use jiff::ZonedDateTime;
use printer::Printer;
use std::fs::File;
use std::io::{self, BufReader};
use std::num::NonZeroUsize;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

/// Why a batch was not carried out, or not to its end.
#[derive(Debug, thiserror::Error)]
enum Failure {
    #[error(transparent)]
    Settings(#[from] SettingsError),
    #[error(transparent)]
    List(#[from] ListError),
    #[error("{path} could not be read: {error}. Check its name, and give one path a line in it")]
    ListFile { path: PathBuf, error: io::Error },
    #[error(transparent)]
    Grouping(#[from] GroupingError),
    #[error(transparent)]
    Run(#[from] RunError),
    #[error(transparent)]
    Results(#[from] ResultsError),
    #[error(transparent)]
    Join(#[from] JoinError),
    #[error(transparent)]
    Entering(#[from] EnteringError),
    #[error("the folder cannot be watched: {0}. Run the batch again now and then instead")]
    Watch(#[from] notify::Error),
    #[error("the findings could not be printed: {0}")]
    Print(io::Error),
}

impl Failure {
    const fn outcome(&self) -> Outcome {
        match self {
            Self::Settings(_) | Self::List(_) | Self::ListFile { .. } | Self::Grouping(_) => {
                Outcome::BadUsage
            }
            Self::Join(error) if !matches!(error, JoinError::Results(_)) => Outcome::BadUsage,
            _ => Outcome::NothingDone,
        }
    }
}

/// Carries out `poreline batch`.
pub(super) fn run(args: BatchArgs) -> Outcome {
    let done = match args.command {
        Some(BatchCommand::Join(args)) => join(&args),
        None => measure(args),
    };
    done.unwrap_or_else(|failure| {
        say(&failure.to_string());
        failure.outcome()
    })
}

fn grouping_of(args: &GroupingArgs) -> Result<Option<Grouping>, GroupingError> {
    match (&args.voucher_pattern, &args.voucher_table) {
        (Some(pattern), _) => Grouping::pattern(pattern).map(Some),
        (None, Some(path)) => Grouping::table(path).map(Some),
        (None, None) => Ok(None),
    }
}

fn join(args: &JoinArgs) -> Result<Outcome, Failure> {
    let grouping = grouping_of(&args.grouping)?;
    let results = Results::open(&args.out)?;
    let list = batch::join(&args.folders, &results)?;
    let made = results.derive(&list, grouping.as_ref())?;
    say(&format!("{}: {}", args.out.display(), made.in_words()));
    Ok(outcome(&made))
}

const fn outcome(made: &Made) -> Outcome {
    match (made.photos.len(), made.failed) {
        (0, 0) => Outcome::NothingDone,
        (_, 0) => Outcome::Done,
        (0, _) => Outcome::NothingDone,
        _ => Outcome::SomeFailed,
    }
}

/// Everything settled, ready to run once or again and again.
struct Plan {
    args: BatchArgs,
    out: PathBuf,
    settings: Settings,
    grouping: Option<Grouping>,
    threads: NonZeroUsize,
    memory: u64,
    glances: Glances,
    results: Results,
}

fn measure(args: BatchArgs) -> Result<Outcome, Failure> {
    // Whoever parsed the options saw to it that there is one.
    let out = args.out.clone().unwrap_or_default();
    let listing = listing(&args, &out)?;
    let first = listing.files.first().map(|file| file.path.clone());
    let settings = settings_of(args.settings.clone(), first.as_deref())?;
    let cores = batch::cores().unwrap_or(NonZeroUsize::MIN);
    let plan = Plan {
        settings,
        grouping: grouping_of(&args.grouping)?,
        threads: args.threads.unwrap_or(cores),
        memory: args.memory.unwrap_or_else(half_of_the_machine),
        glances: Glances::default(),
        results: Results::open(&out)?,
        out,
        args,
    };
    let stop = Arc::new(AtomicBool::new(false));
    if plan.args.watch {
        return watch::watch(&plan, &stop);
    }
    let at_once = Arc::clone(&stop);
    // Where Ctrl-C cannot be caught it ends the program at once, which loses nothing that is kept.
    drop(ctrlc::set_handler(move || {
        at_once.store(true, Ordering::Relaxed);
    }));
    plan.once(&listing, &stop)
}

/// The files to be looked at.
fn listing(args: &BatchArgs, out: &Path) -> Result<Listing, Failure> {
    match (&args.folder, &args.list) {
        (Some(folder), _) => Ok(Listing::of_folder(folder, out)?),
        (None, Some(list)) if list.as_os_str() == "-" => Ok(Listing::of_lines(io::stdin().lock())?),
        (None, list) => {
            let path = list.clone().unwrap_or_default();
            match File::open(&path) {
                Ok(file) => Ok(Listing::of_lines(BufReader::new(file))?),
                Err(error) => Err(Failure::ListFile { path, error }),
            }
        }
    }
}

impl Plan {
    /// Measures what is new and makes the results.
    fn once(&self, listing: &Listing, stop: &AtomicBool) -> Result<Outcome, Failure> {
        let batch = Batch {
            listing,
            part: self.args.part,
            settings: &self.settings,
            extras: Extras {
                pores: self.args.pores,
                overlays: self.args.overlays,
                parquet: self.args.parquet,
            },
            threads: self.threads,
            memory: self.memory,
            glances: &self.glances,
        };
        let files = batch.files().len();
        let printer = Printer::new(files, self.args.json, stop);
        let ran = batch.run(&self.results, stop, &|told| printer.tell(&told));
        let (done, failed) = printer.finish();
        let list = match ran {
            Ok(list) => list,
            Err(RunError::Stopped) => {
                if let Some(error) = printer.error() {
                    return Err(Failure::Print(error));
                }
                say(&format!(
                    "stopped: {done} of {files} files are done. Start it again the same way to go on"
                ));
                return Ok(if done > failed {
                    Outcome::SomeFailed
                } else {
                    Outcome::NothingDone
                });
            }
            Err(error) => {
                say(&error.to_string());
                return Ok(if done > failed {
                    Outcome::SomeFailed
                } else {
                    Outcome::NothingDone
                });
            }
        };
        if self.args.part.is_whole() {
            self.finish(&list, listing)
        } else {
            Ok(self.finish_part(&list, failed))
        }
    }

    /// The results of the whole.
    fn finish(&self, list: &RunList, listing: &Listing) -> Result<Outcome, Failure> {
        let made = self.results.derive(list, self.grouping.as_ref())?;
        say(&format!("{}: {}", self.out.display(), made.in_words()));
        if let Some(book) = &self.args.book {
            self.enter(book, &made, listing)?;
        }
        Ok(outcome(&made))
    }

    fn enter(&self, book: &Path, made: &Made, listing: &Listing) -> Result<(), Failure> {
        let when = ZonedDateTime::now()
            .strftime("%Y-%m-%dT%H:%M:%S%:z")
            .to_string();
        let entered = Entering {
            book,
            when: &when,
            by: self.args.measured_by.as_deref(),
            in_place: self.args.in_place,
            add_vouchers: self.args.add_vouchers,
        }
        .enter(&made.photos, listing, &self.results)?;
        say(&format!(
            "{}: findings of {} photos attached, those of {} were there already",
            book.display(),
            entered.attached,
            entered.already_there
        ));
        if !entered.added.is_empty() {
            say(&format!("added to the book: {}", entered.added.join(", ")));
        }
        if !entered.missing.is_empty() {
            say(&format!(
                "the book has no voucher {}; add them first, or with --add-vouchers",
                entered.missing.join(", ")
            ));
        }
        let alone = made.photos.iter().filter(|photo| photo.voucher.is_none());
        match alone.count() {
            0 => {}
            1 => say("1 photo belongs to no voucher by its name, and is in no book"),
            more => say(&format!(
                "{more} photos belong to no voucher by their names, and are in no book"
            )),
        }
        Ok(())
    }

    /// A part makes no results of its own.
    fn finish_part(&self, list: &RunList, failed: usize) -> Outcome {
        let part = self.args.part;
        let photos = list
            .photos
            .iter()
            .filter(|seen| !matches!(seen.state, State::NoPhoto { .. }))
            .count();
        say(&format!(
            "part {part} is done, {} measured and {failed} not. When all parts are, put them together \
             with `poreline batch join {} --out {}`",
            photos - failed.min(photos),
            self.out.display(),
            self.out.display()
        ));
        match (photos, failed) {
            (_, 0) => Outcome::Done,
            (photos, failed) if failed >= photos => Outcome::NothingDone,
            _ => Outcome::SomeFailed,
        }
    }
}
