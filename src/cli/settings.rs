//! Options about scale and area as typed, made into settings; and, the other way round, what went wrong
//! said in options.

use super::args::SettingsArgs;
use crate::area::{Area, Outline};
use crate::bar::Bar;
use crate::basis::PlaneSource;
use crate::corrections::Corrections;
use crate::export::digits::significant;
use crate::geometry::Point;
use crate::photo;
use crate::ruler::{Graduation, RulerError};
use crate::scale::{Scale, ScaleError};
use crate::set_up::{self, SetUp, SetUpError};
use crate::settings::{NotMeasured, ScaleSource, Settings};
use crate::stated::{Stated, stated};
use crate::units::Millimetres;
use std::fmt::Write as _;
use std::path::{Path, PathBuf};

/// Why the options make no settings.
#[derive(Debug, thiserror::Error)]
pub(super) enum SettingsError {
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
    #[error(transparent)]
    SetUp(#[from] SetUpError),
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

/// What was typed, with the first photo to say what its file tells where no scale was given.
pub(super) fn settings_of(
    args: SettingsArgs,
    first: Option<&Path>,
) -> Result<Settings, SettingsError> {
    let mut corrections = Corrections::default();
    if let Some(least_wall) = args.least_wall {
        corrections.least_wall = least_wall;
    }
    let outline = match (&args.area, &args.area_polygon) {
        (Some(rect), _) => Outline::Rectangle(*rect),
        (None, Some(polygon)) => Outline::Polygon(polygon.clone()),
        (None, None) => Outline::WholePhoto,
    };
    Ok(Settings {
        scale: scale_of(&args, first)?,
        scale_is_right: args.scale_is_right,
        area: Area {
            outline,
            left_out: args.leave_out.into_iter().map(Into::into).collect(),
        },
        whole_photo: args.whole_photo,
        corrections,
        white: args.white,
    })
}

fn scale_of(args: &SettingsArgs, first: Option<&Path>) -> Result<ScaleSource, SettingsError> {
    if let Some(corners) = args.corners {
        return Ok(ScaleSource::Plane(PlaneSource::Corners(corners)));
    }
    if args.card {
        return Ok(ScaleSource::Plane(PlaneSource::Card));
    }
    if let Some(typed) = &args.set_up {
        return Ok(ScaleSource::SetUp {
            set_up: Box::new(SetUp::load(&set_up::locate(typed)?)?),
            fits: args.set_up_fits,
        });
    }
    if args.from_file {
        return Ok(ScaleSource::File);
    }
    if let Some(scale) = args.px_per_mm {
        return Ok(ScaleSource::Known(scale));
    }
    if let Some(length) = args.bar {
        return Ok(ScaleSource::Bar(length));
    }
    if let Some(line) = args.ruler {
        return Ok(ScaleSource::Ruler {
            ends: line.ends,
            between: line.between,
        });
    }
    let stretches: Vec<(Point, Point, Millimetres)> = args
        .points
        .iter()
        .map(|stretch| (stretch.ends[0], stretch.ends[1], stretch.length))
        .collect();
    if stretches.is_empty() {
        return Err(SettingsError::NoScale(first.and_then(stated_by)));
    }
    // A mistyped stretch is bad usage, before any photo is opened.
    Scale::from_stretches(&stretches)?;
    Ok(ScaleSource::Points(stretches))
}

/// What a photo's file says of its scale. It is looked at only to say so, and its own faults are told
/// when it is measured.
fn stated_by(path: &Path) -> Option<(PathBuf, Stated)> {
    let photo = photo::open(path).ok()?;
    Some((path.to_owned(), stated(&photo).ok()?))
}

/// Why a photo was not measured, and which options help.
pub(super) fn in_options(error: &NotMeasured, scale: &ScaleSource) -> String {
    match error {
        NotMeasured::PlaceOffPhoto {
            place,
            width,
            height,
        } => {
            let option = match scale {
                ScaleSource::Plane(_) => "--corners",
                ScaleSource::Ruler { .. } => "--ruler",
                _ => "--points",
            };
            format!(
                "the place {},{} of {option} does not lie on the photo, which is {width} × {height} px; \
                 give places of this photo, turned upright, counted from its top left corner",
                place.x, place.y
            )
        }
        NotMeasured::NoBar(length) => format!(
            "no scale bar was found on the photo. If there is one, give its two ends: \
             --points X1,Y1,X2,Y2={}mm; if it is short, faint or cut off by the photo's edge, use a ruler \
             on another photo with the same lens and distance, and --px-per-mm",
            length.0
        ),
        NotMeasured::SeveralBars(bars, length) => format!(
            "{} strokes on the photo could be the scale bar. Look which one it is, and give that one:{}",
            bars.len(),
            choices(bars, *length)
        ),
        NotMeasured::UnlikelyScale(error) => {
            format!("{error}. If the scale is right all the same, add --scale-is-right")
        }
        NotMeasured::SetUpMismatch(_) => {
            format!("{error}. If it does all the same, add --set-up-fits")
        }
        NotMeasured::Ruler(RulerError::Ambiguous(possible)) => format!(
            "the ticks of the ruler do not tell what lies between two neighbours. Look at the ruler, and \
             give one of:{}",
            ticks(possible, &scale.places())
        ),
        _ => error.to_string(),
    }
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

/// What ticks along a line may mean, as one would type it.
fn ticks(possible: &[Graduation], line: &[Point]) -> String {
    let places: Vec<String> = line.iter().map(|p| format!("{},{}", p.x, p.y)).collect();
    possible.iter().fold(String::new(), |mut list, graduation| {
        // Writing to a string cannot fail.
        let _ = write!(
            list,
            "\n  --ruler {}={}",
            places.join(","),
            graduation.word()
        );
        list
    })
}
