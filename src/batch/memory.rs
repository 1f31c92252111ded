//! How much memory photos in work may take together, and waiting until there is room.

use crate::photo::Glance;
use crate::segmentation::PX_PER_SPACING;
use std::sync::{Condvar, Mutex, PoisonError};
use sysinfo::System;

/// Bytes that measuring takes for each pixel of the photo, as it was decoded and as linear light. What was
/// measured stands in `docs/a-folder-at-a-time.md`.
const BYTES_PER_PIXEL: f64 = 12.0;

/// Bytes that it takes at its peak for each pixel of the frame, in which every spacing has the same number of
/// pixels.
const BYTES_PER_FRAME_PIXEL: f64 = 72.0;

/// From pore to pore, px, as on photos that were taken well. What finer ones need is known once they are
/// decoded.
const USUAL_SPACING_PX: f64 = 24.0;

/// What measuring takes whatever the photo's size: tables, outlines, text.
const BYTES_PER_PHOTO: u64 = 48 << 20;

/// What may be taken where nobody knows how much there is, bytes.
const UNTOLD: u64 = 1 << 30;

/// Bytes that photos in work may take together.
#[derive(Debug)]
pub struct Budget {
    total: u64,
    taken: Mutex<u64>,
    freed: Condvar,
}

/// Room that was given; it is free again when this is dropped.
#[derive(Debug)]
pub struct Room<'a> {
    budget: &'a Budget,
    bytes: u64,
}

/// More than there will ever be.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error(
    "measuring it takes about {} MB of memory, more than the {} MB that may be used; allow more, or save \
     the photo smaller",
    .needed >> 20,
    .total >> 20
)]
pub struct TooMuch {
    needed: u64,
    total: u64,
}

impl Budget {
    /// So many bytes.
    #[must_use]
    pub const fn new(total: u64) -> Self {
        Self {
            total,
            taken: Mutex::new(0),
            freed: Condvar::new(),
        }
    }

    /// Waits until there is room for so many bytes.
    ///
    /// # Errors
    /// [`TooMuch`] where there will never be.
    pub fn wait_for(&self, bytes: u64) -> Result<Room<'_>, TooMuch> {
        if bytes > self.total {
            return Err(TooMuch {
                needed: bytes,
                total: self.total,
            });
        }
        let taken = self.taken.lock().unwrap_or_else(PoisonError::into_inner);
        let mut taken = self
            .freed
            .wait_while(taken, |taken| *taken + bytes > self.total)
            .unwrap_or_else(PoisonError::into_inner);
        *taken += bytes;
        Ok(Room {
            budget: self,
            bytes,
        })
    }
}

impl Drop for Room<'_> {
    fn drop(&mut self) {
        let taken = self.budget.taken.lock();
        *taken.unwrap_or_else(PoisonError::into_inner) -= self.bytes;
        self.budget.freed.notify_all();
    }
}

/// How many bytes measuring a photo takes at most, told before it is decoded: unless its pores are finer than
/// they should be.
#[must_use]
pub fn needed(photo: &Glance, size: (u32, u32)) -> u64 {
    needed_at(photo, size, USUAL_SPACING_PX)
}

/// The same once it is known how many px lie from pore to pore.
#[must_use]
pub fn needed_at(photo: &Glance, (width, height): (u32, u32), spacing_px: f64) -> u64 {
    let enlarged = (PX_PER_SPACING / spacing_px).powi(2);
    let per_pixel = BYTES_PER_PIXEL + BYTES_PER_FRAME_PIXEL * enlarged;
    let pixels = f64::from(width) * f64::from(height);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "bytes, far below 2⁵²"
    )]
    let for_pixels = (pixels * per_pixel) as u64;
    BYTES_PER_PHOTO + photo.bytes + for_pixels
}

/// Half of the memory that this machine has, or that the program may use of it, bytes; a little where the
/// system does not tell.
#[must_use]
pub fn half_of_the_machine() -> u64 {
    let Ok(mut machine) = System::new() else {
        return UNTOLD;
    };
    machine.refresh_memory();
    let allowed = machine
        .cgroup_limits()
        .map_or(u64::MAX, |limits| limits.total_memory);
    machine.total_memory().min(allowed) / 2
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::sync::atomic::{AtomicU64, Ordering};
    use std::thread;

    #[test]
    fn no_more_is_taken_than_there_is_and_everybody_gets_room() {
        let budget = Budget::new(100);
        let (now, most, served) = (AtomicU64::new(0), AtomicU64::new(0), AtomicU64::new(0));
        thread::scope(|scope| {
            for worker in 0..8_u64 {
                let (budget, now, most, served) = (&budget, &now, &most, &served);
                scope.spawn(move || {
                    for turn in 0..50 {
                        let bytes = 1 + (worker * 37 + turn * 11) % 100;
                        let room = budget.wait_for(bytes).expect("enough");
                        let taken = now.fetch_add(bytes, Ordering::SeqCst) + bytes;
                        most.fetch_max(taken, Ordering::SeqCst);
                        thread::yield_now();
                        now.fetch_sub(bytes, Ordering::SeqCst);
                        served.fetch_add(1, Ordering::SeqCst);
                        drop(room);
                    }
                });
            }
        });
        assert!(most.into_inner() <= 100);
        assert_eq!(served.into_inner(), 400);
        assert!(budget.wait_for(101).is_err());
    }
}
