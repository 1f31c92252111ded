//! Forays from the command line.

use super::foray_args::{ForayAddArgs, ForayCommand, ForaySeenArgs};
use super::{Failure, open, print, print_json, write};
use crate::book::{
    BookError, Foray, Saved, Sighting, TakenIn, parted, read_checklists, write_checklists,
};
use crate::cli::{Outcome, say};
use crate::export::book_text;
use std::fs;

pub(super) fn run(command: ForayCommand) -> Result<Outcome, Failure> {
    match command {
        ForayCommand::Add(args) => add(args),
        ForayCommand::Seen(args) => seen(&args),
        ForayCommand::Show(args) => {
            let book = open(&args.folder)?;
            let foray = book.foray(&args.foray)?;
            if args.json {
                return print_json(&format!("{}\n", serde_json::to_string_pretty(foray)?));
            }
            print(&book_text::foray(foray))
        }
        ForayCommand::List(args) => {
            let book = open(&args.folder)?;
            if !args.json {
                return print(&book_text::forays(book.forays()));
            }
            let mut lines = String::new();
            for foray in book.forays() {
                lines.push_str(&serde_json::to_string(foray)?);
                lines.push('\n');
            }
            print_json(&lines)
        }
        ForayCommand::Import(args) => {
            let mut book = open(&args.folder)?;
            let bytes = fs::read(&args.table).map_err(|error| Failure::Unreadable {
                path: args.table.clone(),
                error,
            })?;
            let walks = read_checklists(&bytes).map_err(|error| Failure::Checklist {
                path: args.table.clone(),
                error,
            })?;
            let TakenIn {
                walks,
                sightings,
                changed,
            } = book.take_in(walks)?;
            say(&format!("{walks} walks and {sightings} sightings are new"));
            if changed > 0 {
                say(&format!(
                    "{changed} walks were changed by somebody else meanwhile and left alone; take the table in again"
                ));
                return Ok(Outcome::SomeFailed);
            }
            Ok(Outcome::Done)
        }
        ForayCommand::Export(args) => {
            let book = open(&args.folder)?;
            let table = write_checklists(book.forays())?;
            write(args.table, args.replace, &table)
        }
    }
}

fn add(args: ForayAddArgs) -> Result<Outcome, Failure> {
    let mut book = open(&args.folder)?;
    let foray = Foray {
        people_count: args.people,
        event_remarks: args.notes,
        checklist: args.seen.iter().map(|typed| sighting(typed)).collect(),
        ..Foray::new(args.date, args.place)
    };
    let title = foray.title();
    book.add_foray(foray)?;
    say(&format!("added {title}"));
    Ok(Outcome::Done)
}

/// Adds to a checklist what it lacks.
fn seen(args: &ForaySeenArgs) -> Result<Outcome, Failure> {
    let mut book = open(&args.folder)?;
    let mut foray = book.foray(&args.foray)?.clone();
    let title = foray.title();
    let more: Vec<Sighting> = (args.seen.iter())
        .map(|typed| sighting(typed))
        .filter(|sighting| !foray.checklist.contains(sighting))
        .collect();
    if more.iter().any(|one| one.scientific_name.is_empty()) {
        return Err(BookError::Empty("name").into());
    }
    if more.is_empty() {
        say(&format!(
            "all of that is on the checklist of {title} already"
        ));
        return Ok(Outcome::Done);
    }
    let count = more.len();
    foray.checklist.extend(more);
    match book.save_foray(foray)? {
        Saved::Written(_) => {
            say(&format!("added {count} to the checklist of {title}"));
            Ok(Outcome::Done)
        }
        Saved::Changed(_) => Err(BookError::Changed(title).into()),
    }
}

/// `NAME` or `NAME=NUMBER`.
fn sighting(typed: &str) -> Sighting {
    let (name, number) = typed
        .split_once('=')
        .map_or((typed, None), |(name, number)| (name, Some(number.trim())));
    let (scientific_name, identification_qualifier) = parted(name);
    Sighting {
        scientific_name,
        identification_qualifier,
        catalog_number: number.map(str::to_owned),
        ..Sighting::default()
    }
}
