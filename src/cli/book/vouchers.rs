//! Vouchers from the command line.

use super::args::{
    AddArgs, AttachArgs, ChangeArgs, CompareArgs, DetachArgs, DetermineArgs, ListArgs,
    MeasuredArgs, SetArgs, ShowArgs,
};
use super::{Failure, open, print, print_json, today};
use crate::book::{
    Attached, Book, BookError, Copying, Determination, Foray, Index, PhotoLink, Saved, Voucher,
    findings_read, observation, parted,
};
use crate::cli::args::Field;
use crate::cli::ranges::with_own;
use crate::cli::{Outcome, say};
use crate::export::{book_text, comparison, comparison_json};
use crate::photo::{self, Photo};
use jiff::ZonedDateTime;
use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};

/// How often a change is made anew on top of what others save at the same moment.
const TRIES: usize = 20;

/// What is to be attached, read and checked before anything is written.
#[derive(Default)]
struct Material {
    photos: Vec<Photo>,
    /// Findings, with the photo they name where it is still there unchanged.
    findings: Vec<(Value, Option<Photo>)>,
}

impl Material {
    fn add_photo(&mut self, path: &Path) -> Result<(), Failure> {
        self.photos.push(photo::open(path)?);
        Ok(())
    }

    fn add_findings(&mut self, path: &Path) -> Result<(), Failure> {
        let text = fs::read_to_string(path).map_err(|error| Failure::Unreadable {
            path: path.into(),
            error,
        })?;
        let read = findings_read(&text).map_err(|error| Failure::Findings {
            path: path.into(),
            error,
        })?;
        for failed in read.failed {
            say(&format!("left out, as it was not measured: {failed}"));
        }
        for findings in read.findings {
            let named = findings.pointer("/photo/path").and_then(Value::as_str);
            let sha256 = findings.pointer("/photo/sha256").and_then(Value::as_str);
            let photo = named
                .and_then(|named| photo::open(Path::new(named)).ok())
                .filter(|photo| Some(photo.sha256.as_str()) == sha256);
            if photo.is_none() {
                say(&format!(
                    "the photo {} is not there as it was measured; its findings are attached without it",
                    named.unwrap_or_default()
                ));
            }
            self.findings.push((findings, photo));
        }
        Ok(())
    }

    fn photos(&self) -> impl Iterator<Item = &Photo> {
        let of_findings = self.findings.iter().filter_map(|(_, photo)| photo.as_ref());
        self.photos.iter().chain(of_findings)
    }

    /// Puts it into a voucher; photos are copied now.
    fn attach(
        &self,
        book: &Book,
        voucher: &mut Voucher,
        args: &MeasuredArgs,
    ) -> Result<(), BookError> {
        let copying = Copying::of(voucher, !args.in_place);
        let link = |photo: &Photo| book.link_photo(&photo.path, &photo.sha256, copying);
        for photo in &self.photos {
            voucher.add_photo(link(photo)?);
        }
        let now = ZonedDateTime::now()
            .strftime("%Y-%m-%dT%H:%M:%S%:z")
            .to_string();
        for (findings, photo) in &self.findings {
            let text = |at: &str| findings.pointer(at).and_then(Value::as_str);
            let link = match photo {
                Some(photo) => link(photo)?,
                None => PhotoLink {
                    path: text("/photo/path").unwrap_or_default().to_owned(),
                    sha256: text("/photo/sha256").unwrap_or_default().to_owned(),
                    ..PhotoLink::default()
                },
            };
            let attached = Attached {
                measurement_determined_date: now.clone(),
                measurement_determined_by: args.measured_by.clone(),
                findings: findings.clone(),
            };
            voucher.attach(link, attached);
        }
        Ok(())
    }
}

pub(super) fn add(args: &AddArgs) -> Result<Outcome, Failure> {
    let mut book = open(&args.folder)?;
    let mut voucher = Voucher::new("");
    set_fields(&mut voucher, &args.set)?;
    if let Some(told) = &args.foray {
        let foray = book.foray(told)?;
        voucher.event_id = Some(foray.event_id.clone());
        voucher
            .event_date
            .get_or_insert_with(|| foray.event_date.clone());
        voucher
            .locality
            .get_or_insert_with(|| foray.locality.clone());
    }
    let mut material = Material::default();
    for path in &args.photo {
        material.add_photo(path)?;
    }
    if let Some(path) = &args.from {
        material.add_findings(path)?;
    }
    let filled: Vec<&str> = material
        .photos()
        .flat_map(|photo| voucher.fill_from(photo))
        .collect();
    if !filled.is_empty() {
        say(&format!(
            "taken from the photo's file: {}",
            filled.join(", ")
        ));
    }
    let is_numbered = !voucher.catalog_number.is_empty();
    if is_numbered && book.voucher(&voucher.catalog_number).is_ok() {
        return Err(BookError::NumberTaken(voucher.catalog_number).into());
    }
    material.attach(&book, &mut voucher, &args.measured)?;
    if !is_numbered {
        voucher.catalog_number = book.next_number(year(&voucher))?;
    }
    let number = voucher.catalog_number.clone();
    book.add_voucher(voucher)?;
    print(&format!("{number}\n"))
}

/// The year of collecting, or else this year.
pub(super) fn year(voucher: &Voucher) -> i16 {
    let told = voucher.event_date.as_deref();
    told.and_then(|date| date.get(..4)?.parse().ok())
        .unwrap_or_else(|| ZonedDateTime::now().year())
}

pub(super) fn list(args: &ListArgs) -> Result<Outcome, Failure> {
    let book = open(&args.folder)?;
    let vouchers: Vec<Voucher> = book.vouchers().cloned().collect();
    let found = Index::of(&vouchers).find(args.search.as_deref().unwrap_or_default());
    let found = found.into_iter().map(|at| &vouchers[at]);
    if !args.json {
        return print(&book_text::list(found));
    }
    let mut lines = String::new();
    for voucher in found {
        lines.push_str(&serde_json::to_string(voucher)?);
        lines.push('\n');
    }
    print_json(&lines)
}

pub(super) fn show(args: &ShowArgs) -> Result<Outcome, Failure> {
    let book = open(&args.folder)?;
    let voucher = book.voucher(&args.number)?;
    if args.json {
        return print_json(&format!("{}\n", serde_json::to_string_pretty(voucher)?));
    }
    let walk = voucher
        .event_id
        .as_ref()
        .map(|id| book.foray(id).map_or_else(|_| id.clone(), Foray::title));
    print(&book_text::voucher(voucher, walk))?;
    if args.compare {
        let seen = observation(voucher);
        print(&format!("\n{}", comparison::text(&seen, &book.ranges()?)))?;
    }
    Ok(Outcome::Done)
}

pub(super) fn compare(args: &CompareArgs) -> Result<Outcome, Failure> {
    let book = open(&args.folder)?;
    let voucher = book.voucher(&args.number)?;
    let ranges = with_own(book.ranges()?, args.ranges.as_deref())?;
    let seen = observation(voucher);
    if args.json {
        let compared = comparison_json::comparison(&args.number, &seen, &ranges);
        return print_json(&format!("{}\n", serde_json::to_string_pretty(&compared)?));
    }
    print(&format!(
        "{}\n{}",
        args.number,
        comparison::text(&seen, &ranges)
    ))
}

pub(super) fn set(args: &SetArgs) -> Result<Outcome, Failure> {
    change(&args.folder, &args.number, &args.change, |_, voucher| {
        set_fields(voucher, &args.fields)
    })
}

pub(super) fn determine(args: DetermineArgs) -> Result<Outcome, Failure> {
    let (scientific_name, said) = parted(&args.name);
    if scientific_name.is_empty() {
        return Err(BookError::Empty("name").into());
    }
    let determination = Determination {
        scientific_name,
        identification_qualifier: args.qualifier.or(said),
        identified_by: Some(args.by),
        date_identified: Some(args.date.unwrap_or_else(today)),
        identification_remarks: args.because,
    };
    change(&args.folder, &args.number, &args.change, |_, voucher| {
        voucher.determine(determination.clone());
        Ok(())
    })
}

pub(super) fn attach(args: &AttachArgs) -> Result<Outcome, Failure> {
    let is_findings = |path: &PathBuf| {
        path.extension()
            .is_some_and(|end| end == "json" || end == "jsonl")
    };
    let mut material = Material::default();
    for path in &args.files {
        if is_findings(path) {
            material.add_findings(path)?;
        } else {
            material.add_photo(path)?;
        }
    }
    change(&args.folder, &args.number, &args.change, |book, voucher| {
        Ok(material.attach(book, voucher, &args.measured)?)
    })
}

pub(super) fn detach(args: &DetachArgs) -> Result<Outcome, Failure> {
    let is_meant = |link: &&PhotoLink| {
        let name = Path::new(&link.path).file_name();
        name.is_some_and(|name| name == args.photo.as_str()) || link.sha256.starts_with(&args.photo)
    };
    change(&args.folder, &args.number, &args.change, |_, voucher| {
        let meant = voucher.photos.iter().find(is_meant);
        let Some(sha256) = meant.map(|link| link.sha256.clone()) else {
            return Err(Failure::NoSuchPhoto {
                number: args.number.clone(),
                photo: args.photo.clone(),
            });
        };
        voucher.detach(&sha256);
        Ok(())
    })
}

/// Changes one voucher and saves it; where somebody else saves it at the same moment, the change is made
/// once more on top of theirs.
fn change(
    folder: &Path,
    number: &str,
    args: &ChangeArgs,
    change: impl Fn(&Book, &mut Voucher) -> Result<(), Failure>,
) -> Result<Outcome, Failure> {
    let mut on_top = false;
    for _ in 0..TRIES {
        let mut book = open(folder)?;
        let mut voucher = book.voucher(number)?.clone();
        if args.revision.is_some_and(|seen| seen != voucher.revision) {
            return Err(BookError::Changed(number.to_owned()).into());
        }
        change(&book, &mut voucher)?;
        let now = voucher.catalog_number.clone();
        match book.save_voucher(voucher)? {
            Saved::Written(_) => {
                let theirs = if on_top {
                    ", on top of what somebody else saved at the same moment"
                } else {
                    ""
                };
                say(&format!("saved {now}{theirs}"));
                return Ok(Outcome::Done);
            }
            Saved::Changed(_) => on_top = true,
        }
    }
    Err(BookError::Changed(number.to_owned()).into())
}

fn set_fields(voucher: &mut Voucher, fields: &[Field]) -> Result<(), Failure> {
    for field in fields {
        voucher.set(&field.term, &field.value)?;
    }
    if voucher.data_generalizations.is_some() {
        voucher.withhold_places();
    }
    Ok(())
}
