//! The command line: what was typed, resolved, run and printed. Nothing below it prints.

mod args;
mod batch;
mod book;
mod card;
mod files;
mod measure;
mod ranges;
mod set_ups;
mod settings;
mod terminal;

pub use terminal::say;

use args::{Cli, Command};
use clap::error::ErrorKind;
use clap::{CommandFactory as _, Parser as _};
use std::ffi::OsString;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// Jaro similarity (Jaro 1989, J. Am. Stat. Assoc. 84: 414–420) above which a word is taken for a
/// command misspelt.
const ALIKE: f64 = 0.75;

/// How a command ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// All that was asked for was done.
    Done,
    /// Not one photo could be measured, or no window opened.
    NothingDone,
    /// What was typed cannot be carried out.
    BadUsage,
    /// Some of several photos could not be measured.
    SomeFailed,
}

impl From<Outcome> for ExitCode {
    /// The exit status scripts rely on.
    fn from(outcome: Outcome) -> Self {
        Self::from(match outcome {
            Outcome::Done => 0,
            Outcome::NothingDone => 1,
            Outcome::BadUsage => 2,
            Outcome::SomeFailed => 3,
        })
    }
}

/// What `main` has to do next.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Next {
    /// Open the window with these photos.
    Window(Vec<PathBuf>),
    /// End.
    Exit(Outcome),
}

/// Carries out the command as typed, the program's own name first.
pub fn run(typed: impl IntoIterator<Item = OsString>) -> Next {
    let typed: Vec<OsString> = typed.into_iter().collect();
    match Cli::try_parse_from(&typed) {
        Ok(Cli {
            command: Some(Command::Measure(args)),
            ..
        }) => Next::Exit(measure::run(args)),
        Ok(Cli {
            command: Some(Command::Batch(args)),
            ..
        }) => Next::Exit(batch::run(*args)),
        Ok(Cli {
            command: Some(Command::Card(args)),
            ..
        }) => Next::Exit(card::run(args)),
        Ok(Cli {
            command: Some(Command::SetUps),
            ..
        }) => Next::Exit(set_ups::run()),
        Ok(Cli {
            command: Some(Command::Book(command)),
            ..
        }) => Next::Exit(book::run(command)),
        Ok(Cli {
            command: Some(Command::Ranges(args)),
            ..
        }) => Next::Exit(ranges::run(&args)),
        Ok(Cli { photos, .. }) => match misspelt_command(&typed) {
            Some(meant) => no_such_command(&typed, &meant),
            None => Next::Window(photos),
        },
        Err(answer) if answer.kind() == ErrorKind::UnknownArgument && is_no_command(&typed) => {
            let meant = misspelt_command(&typed).unwrap_or_else(|| "measure".to_owned());
            no_such_command(&typed, &meant)
        }
        Err(answer) => {
            // Help that nobody reads to the end is no failure.
            let _ = answer.print();
            Next::Exit(if answer.use_stderr() {
                Outcome::BadUsage
            } else {
                Outcome::Done
            })
        }
    }
}

/// Says which command may have been meant by the first word.
fn no_such_command(typed: &[OsString], meant: &str) -> Next {
    let word = typed.get(1).map(|word| word.display());
    let word = word.map_or_else(String::new, |word| word.to_string());
    say(&format!(
        "no such command “{word}”; did you mean `poreline {meant}`? (There is no photo “{word}” \
         either.) `poreline --help` lists the commands"
    ));
    Next::Exit(Outcome::BadUsage)
}

/// The command that the first word resembles, where it is neither a file nor looks like a file's name.
fn misspelt_command(typed: &[OsString]) -> Option<String> {
    if !is_no_command(typed) {
        return None;
    }
    let word = typed.get(1)?.to_str()?.to_lowercase();
    if word.contains(['.', '/', '\\']) {
        return None;
    }
    Cli::command()
        .get_subcommands()
        .map(|command| (strsim::jaro(&word, command.get_name()), command.get_name()))
        .filter(|(alike, _)| *alike > ALIKE)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, name)| name.to_owned())
}

/// Whether the first word is neither a command, nor an option, nor a file.
fn is_no_command(typed: &[OsString]) -> bool {
    typed.get(1).is_some_and(|word| {
        let is_command = Cli::command()
            .get_subcommands()
            .any(|command| word == command.get_name());
        !is_command && !word.as_encoded_bytes().starts_with(b"-") && !Path::new(word).exists()
    })
}
