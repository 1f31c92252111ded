//! How bright the photo is shown. Nothing that is measured knows of it.

/// Brightness and contrast of the picture on the screen, each from −100 to 100; 0 is as it was taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Toning {
    /// Lighter above 0, darker below; black and white stay what they are.
    pub brightness: i8,
    /// More difference between light and dark above 0, less below.
    pub contrast: i8,
}

/// Of brightness or contrast, what doubles or halves its effect.
const DOUBLES: f64 = 50.0;

impl Toning {
    /// The farthest that brightness and contrast go, either way.
    pub const MOST: i8 = 100;

    /// Whether the photo is shown as it was taken.
    #[must_use]
    pub fn is_as_taken(self) -> bool {
        self == Self::default()
    }

    /// What each 8-bit sample of the photo is shown as.
    #[must_use]
    pub fn table(self) -> [u8; 256] {
        let exponent = (-f64::from(self.brightness) / DOUBLES).exp2();
        let stretch = (f64::from(self.contrast) / DOUBLES).exp2();
        let mut sample = 0.0;
        [(); 256].map(|()| {
            let tone = f64::powf(sample / 255.0, exponent);
            let shown = (0.5 + stretch * (tone - 0.5)).clamp(0.0, 1.0);
            sample += 1.0;
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "0 to 255"
            )]
            let shown = (255.0 * shown).round() as u8;
            shown
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn as_taken_every_sample_is_itself() {
        let table = Toning::default().table();
        for sample in 0..=u8::MAX {
            assert_eq!(table[usize::from(sample)], sample);
        }
    }

    #[test]
    fn what_is_lighter_stays_lighter_whatever_is_set() {
        for brightness in [-100, -30, 0, 60, 100] {
            for contrast in [-100, -20, 0, 45, 100] {
                let table = Toning {
                    brightness,
                    contrast,
                }
                .table();
                assert!(table.is_sorted(), "{brightness} {contrast}");
            }
        }
    }

    #[test]
    fn brightness_opens_the_shadows_and_keeps_black_and_white() {
        let [lighter, darker] = [60, -60].map(|brightness| {
            Toning {
                brightness,
                contrast: 0,
            }
            .table()
        });
        for table in [lighter, darker] {
            assert_eq!((table[0], table[255]), (0, 255));
        }
        for sample in 20..230 {
            assert!(usize::from(lighter[sample]) > sample && usize::from(darker[sample]) < sample);
        }
    }

    #[test]
    fn contrast_draws_tones_apart_about_the_middle() {
        let table = Toning {
            brightness: 0,
            contrast: 50,
        }
        .table();
        // Twice as far from the middle: 72.5 and 182.5.
        assert!((72..=73).contains(&table[100]), "{}", table[100]);
        assert!((182..=183).contains(&table[155]), "{}", table[155]);
        assert_eq!((table[20], table[240]), (0, 255));
    }
}
