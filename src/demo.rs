//! An invented book to try things on.
//!
//! The *Alder Fen Foray Group*, its people, places, walks and finds are invented. The photos are the
//! sample images, which were made by rule and show no species: names in the demo book are there to fill
//! fields, and nothing about a species can be learned from them. Every run makes the same records.

use crate::MeasureError;
use crate::area::{Area, Outline};
use crate::book::{
    Attached, Book, BookCard, BookError, Copying, Determination, Foray, Sighting, TermError,
    Voucher, parted,
};
use crate::export::json;
use crate::geometry::{Point, Rect};
use crate::photo::{self, PhotoError};
use crate::progress::Progress;
use crate::scale::{Scale, ScaleError};
use crate::units::Millimetres;
use serde_json::Value;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// What is true of the sample images: where their scale bars lie, among other things.
const TRUTH: &str = include_str!("../sample-images/truth.json");

/// A sample image: its name and its bytes.
macro_rules! sample {
    ($name:literal) => {
        (
            $name,
            include_bytes!(concat!("../sample-images/", $name)).as_slice(),
        )
    };
}

const SAMPLES: [(&str, &[u8]); 9] = [
    sample!("blurred-tilted-light.jpg"),
    sample!("coarse-angular-pores.jpg"),
    sample!("elongated-pores.jpg"),
    sample!("fine-pores.jpg"),
    sample!("gilled.jpg"),
    sample!("irregular-pores.png"),
    sample!("maze-like.jpg"),
    sample!("smooth-crust.jpg"),
    sample!("toothed.jpg"),
];

/// The sample on which the first measuring is shown.
const FIRST: &str = "fine-pores.jpg";

/// Lays a sample photo with a scale bar of 2 mm into a folder, which is made where it is missing.
///
/// # Errors
/// When the disk refuses.
pub fn lay_sample(folder: &Path) -> io::Result<PathBuf> {
    fs::create_dir_all(folder)?;
    let path = folder.join(FIRST);
    let bytes = SAMPLES.iter().find(|(name, _)| *name == FIRST);
    if let Some((_, bytes)) = bytes
        && fs::read(&path).ok().as_deref() != Some(*bytes)
    {
        fs::write(&path, bytes)?;
    }
    Ok(path)
}

/// Why there is no demo book.
#[derive(Debug, thiserror::Error)]
pub enum DemoError {
    /// The book could not be written.
    #[error(transparent)]
    Book(#[from] BookError),
    /// A sample image could not be laid down to be read.
    #[error("the sample images could not be written ({0}); make room on the disk and try again")]
    Samples(#[from] io::Error),
    /// A sample image could not be read.
    #[error(transparent)]
    Photo(#[from] PhotoError),
    /// A sample image could not be measured.
    #[error(transparent)]
    Measure(#[from] MeasureError),
    /// The scale of a sample image.
    #[error(transparent)]
    Scale(#[from] ScaleError),
    /// A field of an invented voucher.
    #[error(transparent)]
    Term(#[from] TermError),
    /// What is told of a sample image lacks something.
    #[error("what is told of the sample image {0} is not whole; install Poreline anew")]
    Truth(&'static str),
}

/// Date, place, people, and what was seen without a voucher being kept.
type Walk = (&'static str, &'static str, u32, &'static [&'static str]);

const WALKS: [Walk; 8] = [
    (
        "2025-10-12",
        "Sluice Path",
        9,
        &["Trametes versicolor", "Stereum hirsutum"],
    ),
    (
        "2025-11-02",
        "Heron Carr",
        6,
        &[
            "Trametes versicolor",
            "Fomitopsis betulina",
            "Bjerkandera adusta",
        ],
    ),
    (
        "2026-03-15",
        "Causeway",
        5,
        &["Ganoderma applanatum", "Trametes versicolor"],
    ),
    (
        "2026-09-20",
        "Old Osier Bed",
        11,
        &["Daedaleopsis confragosa"],
    ),
    (
        "2026-10-04",
        "Sluice Path",
        12,
        &["Stereum hirsutum", "Fomitopsis betulina"],
    ),
    ("2026-10-11", "Heron Carr", 8, &["Trametes versicolor"]),
    (
        "2026-10-18",
        "Old Osier Bed",
        10,
        &["Trametes versicolor", "Bjerkandera adusta"],
    ),
    ("2026-10-25", "Causeway", 4, &[]),
];

/// A find: on which walk, the photo, what it was called and by whom, and fields of the voucher.
struct Find {
    number: u32,
    walk: usize,
    photo: Option<&'static str>,
    names: &'static [(&'static str, &'static str)],
    fields: &'static [(&'static str, &'static str)],
}

const FINDS: [Find; 12] = [
    Find {
        number: 114,
        walk: 4,
        photo: Some("fine-pores.jpg"),
        names: &[
            ("Trametes cf. hirsuta", "Maud Pettigrew"),
            ("Trametes versicolor", "Ines Dunmore"),
        ],
        fields: &[
            ("hostTaxon", "Fagus sylvatica"),
            ("hostWood", "hardwood"),
            ("substrate", "log"),
            ("decayStage", "2"),
            ("capWidthCm", "4.5"),
            ("capZonation", "narrow zones of brown and grey"),
            ("hairiness", "velvety"),
            ("flexibility", "bends like leather"),
            ("undersideColour", "cream"),
        ],
    },
    Find {
        number: 117,
        walk: 4,
        photo: Some("coarse-angular-pores.jpg"),
        names: &[("Cerioporus squamosus", "Ines Dunmore")],
        fields: &[
            ("hostTaxon", "Acer pseudoplatanus"),
            ("hostWood", "hardwood"),
            ("substrate", "stump"),
            ("decayStage", "3"),
            ("capWidthCm", "19"),
            ("smell", "cucumber"),
        ],
    },
    Find {
        number: 121,
        walk: 5,
        photo: Some("elongated-pores.jpg"),
        names: &[("Daedaleopsis confragosa", "Tom Ashdown")],
        fields: &[
            ("hostTaxon", "Salix cinerea"),
            ("hostWood", "hardwood"),
            ("substrate", "standing tree"),
            ("capWidthCm", "9"),
            ("undersideColour", "pale, bruising reddish"),
        ],
    },
    Find {
        number: 122,
        walk: 5,
        photo: Some("toothed.jpg"),
        names: &[("Steccherinum cf. ochraceum", "Tom Ashdown")],
        fields: &[
            ("hostWood", "hardwood"),
            ("substrate", "stick"),
            ("decayStage", "4"),
        ],
    },
    Find {
        number: 126,
        walk: 6,
        photo: Some("maze-like.jpg"),
        names: &[("Daedalea quercina", "Maud Pettigrew")],
        fields: &[
            ("hostTaxon", "Quercus robur"),
            ("hostWood", "hardwood"),
            ("substrate", "stump"),
            ("capWidthCm", "12"),
        ],
    },
    Find {
        number: 127,
        walk: 6,
        photo: Some("gilled.jpg"),
        names: &[("Trametes betulina", "Ines Dunmore")],
        fields: &[
            ("hostTaxon", "Betula pubescens"),
            ("hostWood", "hardwood"),
            ("substrate", "log"),
        ],
    },
    Find {
        number: 131,
        walk: 7,
        photo: Some("smooth-crust.jpg"),
        names: &[("Stereum hirsutum", "Maud Pettigrew")],
        fields: &[
            ("hostTaxon", "Quercus robur"),
            ("hostWood", "hardwood"),
            ("substrate", "stick"),
        ],
    },
    Find {
        number: 133,
        walk: 7,
        photo: Some("blurred-tilted-light.jpg"),
        names: &[],
        fields: &[
            ("hostWood", "unknown"),
            (
                "occurrenceRemarks",
                "photographed in the last light; to be taken again",
            ),
        ],
    },
    Find {
        number: 134,
        walk: 7,
        photo: Some("irregular-pores.png"),
        names: &[("Trametes aff. pubescens", "Tom Ashdown")],
        fields: &[
            ("hostTaxon", "Alnus glutinosa"),
            ("hostWood", "hardwood"),
            ("substrate", "log"),
        ],
    },
    Find {
        number: 98,
        walk: 1,
        photo: None,
        names: &[("Fomitopsis betulina", "Ines Dunmore")],
        fields: &[
            ("hostTaxon", "Betula pendula"),
            ("hostWood", "hardwood"),
            ("substrate", "standing tree"),
        ],
    },
    Find {
        number: 103,
        walk: 2,
        photo: None,
        names: &[("Ganoderma applanatum", "Maud Pettigrew")],
        fields: &[
            ("hostWood", "hardwood"),
            ("substrate", "wound"),
            ("capWidthCm", "31"),
        ],
    },
    Find {
        number: 109,
        walk: 3,
        photo: None,
        names: &[("Trichaptum abietinum", "Tom Ashdown")],
        fields: &[
            ("hostTaxon", "Pinus sylvestris"),
            ("hostWood", "conifer"),
            ("substrate", "log"),
            ("undersideColour", "violet, fading to brown"),
        ],
    },
];

/// Writes the book into a folder that holds none yet.
///
/// # Errors
/// [`DemoError`] when the folder holds a book, the disk refuses, or the work was stopped.
pub fn write(folder: &Path, progress: &Progress<'_>) -> Result<Book, DemoError> {
    let card = BookCard {
        institution_code: Some("AFFG".to_owned()),
        collection_code: Some("Brackets".to_owned()),
        rights_holder: Some("Alder Fen Foray Group".to_owned()),
        license: Some("http://creativecommons.org/publicdomain/zero/1.0/legalcode".to_owned()),
        ..BookCard::new("Brackets of Alder Fen (invented)", "AFFG-{number:4}")
    };
    let mut book = Book::init(folder, card)?;
    let samples = tempfile::tempdir()?;
    for (name, bytes) in SAMPLES {
        fs::write(samples.path().join(name), bytes)?;
    }
    for find in &FINDS {
        let voucher = voucher(find, &book, samples.path(), progress)?;
        book.add_voucher(voucher)?;
    }
    for (walk, (date, place, people, seen)) in WALKS.into_iter().enumerate() {
        let kept = FINDS.iter().filter(|find| find.walk == walk);
        let kept = kept.filter_map(|find| Some((find.names.last()?.0, Some(find.number))));
        let only_seen = seen.iter().map(|name| (*name, None));
        let checklist = kept.chain(only_seen).map(|(name, number)| {
            let (scientific_name, identification_qualifier) = parted(name);
            Sighting {
                scientific_name,
                identification_qualifier,
                catalog_number: number.map(numbered),
                ..Sighting::default()
            }
        });
        book.add_foray(Foray {
            event_id: walk_urn(walk),
            people_count: Some(people),
            checklist: checklist.collect(),
            ..Foray::new(date, place)
        })?;
    }
    Ok(book)
}

/// Identifiers stay the same from run to run.
fn voucher_urn(number: u32) -> String {
    format!("urn:uuid:a1de2fe0-0001-4000-8000-{number:012}")
}

fn walk_urn(walk: usize) -> String {
    format!("urn:uuid:a1de2fe0-0002-4000-8000-{walk:012}")
}

fn numbered(number: u32) -> String {
    format!("AFFG-{number:04}")
}

fn voucher(
    find: &Find,
    book: &Book,
    samples: &Path,
    progress: &Progress<'_>,
) -> Result<Voucher, DemoError> {
    let (date, place, _, _) = WALKS[find.walk];
    let mut voucher = Voucher::new(numbered(find.number));
    voucher.occurrence_id = voucher_urn(find.number);
    voucher.event_id = Some(walk_urn(find.walk));
    for (term, value) in [
        ("eventDate", date),
        ("locality", &format!("Alder Fen, {place}")),
        ("habitat", "alder carr"),
        ("recordedBy", "Ines Dunmore | Tom Ashdown"),
        ("disposition", "in collection"),
    ]
    .iter()
    .chain(find.fields)
    {
        voucher.set(term, value)?;
    }
    for (name, by) in find.names {
        let (scientific_name, identification_qualifier) = parted(name);
        voucher.determine(Determination {
            scientific_name,
            identification_qualifier,
            identified_by: Some((*by).to_owned()),
            date_identified: Some(date.to_owned()),
            identification_remarks: None,
        });
    }
    if let Some(file) = find.photo {
        let path = samples.join(file);
        let photo = photo::open(&path)?;
        let (scale, area) = told(file)?;
        let measured = crate::measure(&photo, scale, &area, progress)?;
        let mut findings = json::findings(&measured.findings);
        // Where it lay when it was measured differs from machine to machine.
        findings["photo"]["path"] = file.into();
        let link = book.link_photo(&path, &photo.sha256, Copying::Whole)?;
        voucher.attach(
            link,
            Attached {
                measurement_determined_date: format!("{date}T20:00:00"),
                measurement_determined_by: Some("Ines Dunmore".to_owned()),
                findings,
            },
        );
    }
    Ok(voucher)
}

/// Scale and area of a sample image.
fn told(file: &'static str) -> Result<(Scale, Area), DemoError> {
    let truth: Value = serde_json::from_str(TRUTH).map_err(|_| DemoError::Truth(file))?;
    let number = |at: &str| {
        let value = truth[file].pointer(at).and_then(Value::as_f64);
        value.ok_or(DemoError::Truth(file))
    };
    let end = |side: &str| -> Result<Point, DemoError> {
        Ok(Point::new(
            number(&format!("/bar/{side}/0"))?,
            number(&format!("/bar/{side}/1"))?,
        ))
    };
    let length = Millimetres(number("/bar/length_mm")?);
    let scale = Scale::from_points(end("left_px")?, end("right_px")?, length)?;
    let area = Area {
        outline: Outline::Rectangle(Rect {
            x: number("/area_px/0")?,
            y: number("/area_px/1")?,
            width: number("/area_px/2")?,
            height: number("/area_px/3")?,
        }),
        left_out: Vec::new(),
    };
    Ok((scale, area))
}
