//! Files that are no photos, and what is to be said of them.

use super::run_list::State;
use crate::photo::{ForeignKind, PhotoError};
use crate::settings::photo_cause_and_remedy;
use std::ffi::OsStr;

/// Endings of names that say that a file is a photo, in lower case.
const PHOTO_ENDINGS: [&str; 10] = [
    "jpg", "jpeg", "jpe", "jfif", "png", "tif", "tiff", "webp", "bmp", "dib",
];
/// Whether a photo that cannot be opened can be opened by nobody, as long as its bytes stay the same.
pub(super) const fn tells_of_the_bytes(error: &PhotoError) -> bool {
    matches!(
        error,
        PhotoError::TooLarge { .. }
            | PhotoError::Incomplete { .. }
            | PhotoError::UnknownCoding { .. }
            | PhotoError::Damaged { .. }
            | PhotoError::Foreign { .. }
    )
}

/// What is to be said of a file that is no photo. What nobody took for one is left alone.
pub(super) fn state_of(error: &PhotoError) -> State {
    let (cause, remedy) = photo_cause_and_remedy(error);
    let is_named_photo = (error.path().extension())
        .and_then(OsStr::to_str)
        .is_some_and(|end| PHOTO_ENDINGS.contains(&end.to_lowercase().as_str()));
    let is_no_picture = matches!(
        error,
        PhotoError::Empty { .. }
            | PhotoError::Foreign {
                kind: ForeignKind::Text
                    | ForeignKind::Unknown
                    | ForeignKind::Pdf
                    | ForeignKind::Svg
                    | ForeignKind::Video,
                ..
            }
    );
    if is_no_picture && !is_named_photo {
        State::NoPhoto { cause }
    } else {
        State::Failed { cause, remedy }
    }
}
