//! A straightened picture with all that belongs to it.

use super::overview::Overview;
use crate::area::Area;
use crate::basis::{self, Basis, PlaneError, PlaneSource};
use crate::colour::{White, WhiteError};
use crate::photo::Photo;
use crate::progress::Progress;
use crate::tilt::Straightened;
use crate::usable::{self, Usable};
use std::sync::Arc;

/// A photo seen squarely from above, ready to be shown and measured.
#[derive(Debug)]
pub struct Flat {
    /// By what it was straightened.
    pub source: PlaneSource,
    /// The picture.
    pub straightened: Arc<Straightened>,
    /// The white of the card it was straightened by, or why its patch cannot serve.
    pub white: Option<Result<White, WhiteError>>,
    /// It at the size of a screen.
    pub overview: Arc<Overview>,
    /// What of it can be used.
    pub usable: Arc<Usable>,
}

/// Two are the same when they are the same piece of work.
impl PartialEq for Flat {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.straightened, &other.straightened)
    }
}

impl Flat {
    /// Straightens a photo.
    ///
    /// # Errors
    /// [`PlaneError`] where nothing tells the plane, or the work was stopped.
    pub fn of(
        photo: &Photo,
        source: PlaneSource,
        progress: &Progress<'_>,
    ) -> Result<Self, PlaneError> {
        let (straightened, white) = basis::straightened(photo, source, progress)?;
        let straightened = Arc::new(straightened);
        let picture = &straightened.photo;
        let all = Basis::plane(Arc::clone(&straightened), white).area(Area::default());
        Ok(Self {
            source,
            overview: Arc::new(Overview::of(&picture.rgb)),
            usable: Arc::new(usable::survey(picture, &all, progress)?),
            straightened,
            white,
        })
    }
}
