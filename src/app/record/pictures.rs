//! Small pictures of photos beside the rows of the list.

use crate::session::Wake;
use crate::session::record::Thumbnails;
use egui::{ColorImage, Context, TextureHandle, TextureOptions};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Pictures held by the graphics card: a few screens of the list.
const KEPT: usize = 300;

/// Small pictures as the graphics card has them.
pub(crate) struct Pictures {
    thumbnails: Thumbnails,
    textures: BTreeMap<PathBuf, TextureHandle>,
}

impl Pictures {
    pub(crate) fn new(ctx: &Context) -> Self {
        let waker = ctx.clone();
        let wake: Wake = Arc::new(move || waker.request_repaint());
        Self {
            thumbnails: Thumbnails::start(wake),
            textures: BTreeMap::new(),
        }
    }

    /// The picture of a photo, once it is there.
    pub(crate) fn of(&mut self, ctx: &Context, photo: &Path) -> Option<&TextureHandle> {
        if !self.textures.contains_key(photo) {
            let picture = self.thumbnails.of(photo)?;
            let size = [picture.width() as usize, picture.height() as usize];
            let image = ColorImage::from_rgb(size, picture.as_raw());
            if self.textures.len() >= KEPT {
                self.textures.clear();
            }
            let name = photo.to_string_lossy();
            let texture = ctx.load_texture(name, image, TextureOptions::LINEAR);
            self.textures.insert(photo.to_owned(), texture);
        }
        self.textures.get(photo)
    }
}
