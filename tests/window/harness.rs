//! The window as a person or a screen reader works it, and a photo to work on.

use egui::accesskit::Role;
use egui::{Event, Key, Modifiers, Pos2, Vec2};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use egui_kittest::{Harness, Node};
use image::{GrayImage, Luma};
use poreline::app::App;
use poreline::area::Area;
use poreline::session::{Step, StepStanding};
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};
use tempfile::TempDir;

/// Size of the test photo, px.
pub const PHOTO: (u32, u32) = (700, 500);
/// Distance between neighbouring discs, px.
pub const SPACING: f64 = 20.0;
/// At this scale the discs stand 4 to the mm.
pub const PX_PER_MM: f64 = 80.0;

/// Dark discs on a triangular lattice, with soft edges as a lens makes them.
pub fn surface() -> GrayImage {
    GrayImage::from_fn(PHOTO.0, PHOTO.1, |x, y| {
        let (x, y) = (f64::from(x) + 0.5, f64::from(y) + 0.5);
        let row_height = SPACING * 3_f64.sqrt() / 2.0;
        let nearest_row = (y / row_height).round();
        let mut distance = f64::INFINITY;
        for row in [nearest_row - 1.0, nearest_row, nearest_row + 1.0] {
            let shift = if row.rem_euclid(2.0) == 0.0 {
                0.0
            } else {
                SPACING / 2.0
            };
            let column = ((x - shift) / SPACING).round();
            let (dx, dy) = (x - shift - column * SPACING, y - row * row_height);
            distance = distance.min(dx.hypot(dy));
        }
        let wall = ((distance - 6.0) / 1.5).clamp(-0.5, 0.5) + 0.5;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "60 to 200"
        )]
        Luma([(60.0 + 140.0 * wall) as u8])
    })
}

pub fn photo_in(folder: &TempDir) -> PathBuf {
    let path = folder.path().join("lattice.png");
    surface().save(&path).expect("a photo on disk");
    path
}

pub struct Window {
    pub harness: Harness<'static, App>,
}

impl Window {
    pub fn with(photos: Vec<PathBuf>) -> Self {
        Self::with_set_ups(photos, PathBuf::from("no set-ups are kept here"))
    }

    /// With set-ups in a folder, so that nobody's own are touched.
    pub fn with_set_ups(photos: Vec<PathBuf>, folder: PathBuf) -> Self {
        Self::built(photos, move |app| app.keep_set_ups_in(folder))
    }

    /// With set-ups and the last book remembered in a folder.
    pub fn at_desk(photos: Vec<PathBuf>, folder: &Path) -> Self {
        let folder = folder.to_owned();
        Self::built(photos, move |app| {
            app.keep_set_ups_in(folder.join("set-ups"));
            app.remember_book_in(folder.join("desk.json"));
        })
    }

    /// With what is done kept safe in a folder.
    pub fn kept_safe(photos: Vec<PathBuf>, folder: &Path) -> Self {
        let folder = folder.to_owned();
        Self::built(photos, move |app| {
            app.keep_set_ups_in(folder.join("set-ups"));
            app.keep_safe_in(&folder);
        })
    }

    /// With what the person likes remembered in a file.
    pub fn liking(photos: Vec<PathBuf>, file: &Path) -> Self {
        let file = file.to_owned();
        Self::built(photos, move |app| {
            app.keep_set_ups_in(file.with_extension("set-ups"));
            app.remember_preferences_in(file);
        })
    }

    fn built(photos: Vec<PathBuf>, prepared: impl FnOnce(&mut App) + 'static) -> Self {
        let harness = Harness::builder()
            .with_size([1280.0, 800.0])
            .with_max_steps(8)
            .build_eframe(|creation| {
                let mut app = App::new(&creation.egui_ctx, photos).expect("a thread to work on");
                prepared(&mut app);
                app
            });
        let mut window = Self { harness };
        window.settle();
        window
    }

    /// Waits until a file in the folder holds these words; the file is written on a thread of its own.
    pub fn await_written(&mut self, folder: &Path, words: &str) {
        let deadline = Instant::now() + Duration::from_secs(30);
        loop {
            self.settle();
            let files = std::fs::read_dir(folder).expect("a folder").flatten();
            let mut texts = files.filter_map(|file| std::fs::read_to_string(file.path()).ok());
            if texts.any(|text| text.contains(words)) {
                return;
            }
            assert!(Instant::now() < deadline, "{words} was not written");
            std::thread::sleep(Duration::from_millis(20));
        }
    }

    /// Runs frames until nothing is under way.
    pub fn settle(&mut self) {
        let deadline = Instant::now() + Duration::from_mins(2);
        loop {
            self.harness.run_steps(3);
            if !self.harness.state().session().is_busy() {
                break;
            }
            assert!(Instant::now() < deadline, "the work never ended");
            std::thread::sleep(Duration::from_millis(5));
        }
        self.harness.run();
    }

    /// The last of the controls so named, pressed.
    pub fn press(&mut self, role: Role, name: &str) {
        self.harness
            .get_all_by_role_and_label(role, name)
            .last()
            .unwrap_or_else(|| panic!("no {name}"))
            .click();
        self.settle();
    }

    pub fn go(&mut self, step: Step) {
        let keys = [Key::Num1, Key::Num2, Key::Num3, Key::Num4, Key::Num5];
        let (_, key) = Step::ALL
            .into_iter()
            .zip(keys)
            .find(|(other, _)| *other == step)
            .expect("a step's key");
        self.harness.key_press_modifiers(Modifiers::COMMAND, key);
        self.settle();
    }

    pub fn type_into(&mut self, field: &str, text: &str) {
        self.field(field).focus();
        self.harness.run();
        self.field(field).type_text(text);
        self.settle();
    }

    /// A field for one line or for a path, which may take several.
    pub fn field<'a>(&'a self, name: &'a str) -> Node<'a> {
        self.harness.get_by(move |node| {
            matches!(node.role(), Role::TextInput | Role::MultilineTextInput)
                && node.label().is_some_and(|label| label == name)
        })
    }

    pub fn key(&mut self, key: Key) {
        self.harness.key_press(key);
        self.settle();
    }

    /// The name of what has the keyboard.
    pub fn focused(&self) -> Option<String> {
        #[expect(
            clippy::redundant_closure_for_method_calls,
            reason = "the method itself fits one lifetime only"
        )]
        let mut all = self.harness.query_all_by(|node| node.is_focused());
        all.find_map(|node| node.accesskit_node().label())
    }

    pub fn area(&self) -> &Area {
        &self.harness.state().session().document().area
    }

    pub fn has_button(&self, name: &str) -> bool {
        self.harness
            .query_all_by_role_and_label(Role::Button, name)
            .next()
            .is_some()
    }

    /// With the scale set, measured.
    pub fn measured(folder: &TempDir) -> Self {
        let mut window = Self::with(vec![photo_in(folder)]);
        window.set_scale();
        window.go(Step::Pores);
        window.press(Role::Button, "Measure");
        window
    }

    pub fn canvas(&self) -> egui::Rect {
        self.harness
            .get_by(|node| {
                node.role() == Role::Image
                    && (node.label())
                        .is_some_and(|l| l.starts_with("Photo ") || l.starts_with("Foto "))
            })
            .rect()
    }

    /// Where a place of the photo is on the screen while all of the photo is shown.
    #[expect(clippy::cast_possible_truncation, reason = "the screen counts in f32")]
    pub fn on_screen(&self, x: f64, y: f64) -> Pos2 {
        let canvas = self.canvas();
        let picture = self.harness.state().session().document().photo_rect();
        let (width, height) = (picture.width, picture.height);
        let zoom = ((f64::from(canvas.width()) - 16.0) / width)
            .min((f64::from(canvas.height()) - 16.0) / height);
        let off = |at: f64, side: f64| ((at - side / 2.0) * zoom) as f32;
        canvas.center() + Vec2::new(off(x, width), off(y, height))
    }

    pub fn click_photo(&mut self, x: f64, y: f64) {
        let at = self.on_screen(x, y);
        self.harness.hover_at(at);
        self.harness.drag_at(at);
        self.harness.run();
        self.harness.drop_at(at);
        self.settle();
    }

    /// A click with Alt held, so that an end of the scale line stays where it is put.
    pub fn click_photo_freely(&mut self, x: f64, y: f64) {
        self.harness.event(Event::ModifiersChanged(Modifiers::ALT));
        self.click_photo(x, y);
        self.harness.event(Event::ModifiersChanged(Modifiers::NONE));
        self.settle();
    }

    pub fn drag_photo(&mut self, from: (f64, f64), to: (f64, f64)) {
        let (from, to) = (self.on_screen(from.0, from.1), self.on_screen(to.0, to.1));
        self.harness.hover_at(from);
        self.harness.drag_at(from);
        self.harness.run();
        for share in [0.3, 0.7, 1.0] {
            self.harness.hover_at(from + (to - from) * share);
            self.harness.run();
        }
        self.harness.drop_at(to);
        self.settle();
    }

    pub fn set_scale(&mut self) {
        self.go(Step::Scale);
        self.click_photo_freely(100.0, 480.0);
        self.click_photo_freely(500.0, 480.0);
        self.type_into("Length between the ends", "5 mm");
    }

    pub fn shows(&self, text: &str) -> bool {
        self.harness
            .query_all_by_label_contains(text)
            .next()
            .is_some()
    }

    pub fn standing(&self, step: Step) -> StepStanding {
        self.harness.state().session().step(step).standing
    }
}
