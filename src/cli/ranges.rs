//! Published ranges: `poreline ranges` lists them, `poreline measure --compare` compares with them.

use super::args::{ComparisonArgs, HostWood, RangesArgs};
use super::terminal::harmless;
use super::{Outcome, say};
use crate::export::comparison;
use crate::findings::Findings;
use crate::ranges::{Host, Observation, Ranges, RangesError, Wood};
use std::fs;
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

/// Why there is no table.
#[derive(Debug, thiserror::Error)]
pub(super) enum TableError {
    #[error("{path} could not be read: {error}; check the name")]
    Unreadable { path: PathBuf, error: io::Error },
    #[error("{path}: {error}")]
    Table { path: PathBuf, error: RangesError },
    #[error(transparent)]
    Shipped(#[from] RangesError),
}

/// What findings are compared with, and what else was seen of the specimen.
pub(super) struct Comparison {
    ranges: Ranges,
    host: Host,
    colour: Option<String>,
    cap_width_cm: Option<f64>,
}

impl Comparison {
    /// What was asked for; `None` where no comparison was.
    pub(super) fn planned(args: ComparisonArgs) -> Result<Option<Self>, TableError> {
        if !args.compare {
            return Ok(None);
        }
        let genus = args
            .host_taxon
            .as_deref()
            .and_then(|taxon| taxon.split_whitespace().next());
        Ok(Some(Self {
            ranges: table(args.ranges.as_deref())?,
            host: Host {
                wood: args.host_wood.map(|wood| match wood {
                    HostWood::Hardwood => Wood::Hardwood,
                    HostWood::Conifer => Wood::Conifer,
                }),
                genus: genus.map(str::to_owned),
            },
            colour: args.underside_colour,
            cap_width_cm: args.cap_width_cm,
        }))
    }

    /// What the findings agree with.
    pub(super) fn text(&self, findings: &Findings) -> String {
        let seen = Observation {
            host: self.host.clone(),
            colour: self.colour.clone(),
            cap_width_cm: self.cap_width_cm,
            ..Observation::of(findings)
        };
        comparison::text(&seen, &self.ranges)
    }
}

/// The shipped table, and a person's own below it.
fn table(own: Option<&Path>) -> Result<Ranges, TableError> {
    with_own(Ranges::shipped()?, own)
}

/// Another table below these ranges.
pub(super) fn with_own(ranges: Ranges, own: Option<&Path>) -> Result<Ranges, TableError> {
    let Some(path) = own else {
        return Ok(ranges);
    };
    let bytes = fs::read(path).map_err(|error| TableError::Unreadable {
        path: path.into(),
        error,
    })?;
    let own = Ranges::read(&bytes).map_err(|error| TableError::Table {
        path: path.into(),
        error,
    })?;
    Ok(ranges.with_own(own))
}

/// Carries out `poreline ranges`.
pub(super) fn run(args: &RangesArgs) -> Outcome {
    let ranges = match table(args.ranges.as_deref()) {
        Ok(ranges) => ranges,
        Err(error) => {
            say(&error.to_string());
            return Outcome::BadUsage;
        }
    };
    let text = match &args.taxon {
        None => comparison::taxa(&ranges),
        Some(name) => {
            let name = name.trim().to_lowercase();
            comparison::printed(ranges.rows.iter().filter(|row| {
                row.taxon.to_lowercase().starts_with(&name)
                    || row.name_in_source.to_lowercase().starts_with(&name)
            }))
        }
    };
    if text.is_empty() {
        say("the table has no such taxon; `poreline ranges` lists those it has");
        return Outcome::NothingDone;
    }
    // Whoever reads may have read enough.
    let _ = io::stdout().lock().write_all(harmless(&text).as_bytes());
    Outcome::Done
}
