//! Set-ups saved with the person's settings: how they stand to the open photo, and new ones.

use super::document::sentence;
use super::format::with_uncertainty;
use super::{ScaleWay, Session, Tone};
use crate::set_up::{Mismatch, SetUp, SetUpError, SetUps};
use crate::wording::text;
use jiff::Timestamp;
use std::path::PathBuf;
use std::sync::Arc;

/// A set-up that was saved before, held against the open photo.
#[derive(Debug, Clone, PartialEq)]
pub struct SavedSetUp {
    /// Its name.
    pub name: String,
    /// What was saved.
    pub(super) set_up: SetUp,
    /// Why it does not seem to fit the photo.
    pub(super) mismatch: Option<Mismatch>,
}

impl SavedSetUp {
    /// Name and scale, and whether it does not fit the photo.
    #[must_use]
    pub fn label(&self) -> String {
        let scale = self.set_up.scale();
        let figure = with_uncertainty(scale.px_per_mm, scale.standard_uncertainty);
        let doubt = if self.mismatch.is_some() {
            text!("does-not-fit-this-photo")
        } else {
            ""
        };
        text!(
            "set-up-in-words",
            name = self.name,
            figure = figure,
            doubt = doubt
        )
    }
}

/// The set-ups as they were found when the list was last wanted.
#[derive(Debug, Default)]
pub(super) struct Shelf {
    /// Where they lie, if not with the person's settings.
    folder: Option<PathBuf>,
    saved: Vec<Arc<SavedSetUp>>,
    faults: Vec<String>,
}

impl Shelf {
    fn folder(&self) -> Result<SetUps, SetUpError> {
        match &self.folder {
            Some(folder) => Ok(SetUps::in_folder(folder.clone())),
            None => SetUps::of_person(),
        }
    }
}

impl Session {
    /// Keeps set-ups in a folder of its own, not with the person's settings.
    pub fn keep_set_ups_in(&mut self, folder: PathBuf) {
        self.set_ups.folder = Some(folder);
    }

    /// The saved set-ups, those that fit the open photo first.
    #[must_use]
    pub fn set_ups(&self) -> &[Arc<SavedSetUp>] {
        &self.set_ups.saved
    }

    /// What is wrong with set-ups that cannot be read, a sentence each.
    #[must_use]
    pub fn set_up_faults(&self) -> &[String] {
        &self.set_ups.faults
    }

    /// Whether the scale is one that a set-up could carry over: taken from this photo, not from
    /// another set-up, from its file's word or from the book.
    #[must_use]
    pub fn has_scale_to_keep(&self) -> bool {
        let setting = &self.document.scale;
        !matches!(
            setting.way,
            ScaleWay::SetUp | ScaleWay::Stated | ScaleWay::Recorded
        ) && setting.scale().is_some()
    }

    /// Why the scale cannot be saved as a set-up, as a sentence; `None` when it can.
    #[must_use]
    pub fn why_not_keep_scale(&self) -> Option<String> {
        match self.new_set_up(String::new()) {
            Some(Err(error)) => Some(in_words(&error)),
            Some(Ok(_)) => None,
            None => Some(text!("set-the-scale-first").to_owned()),
        }
    }

    /// Whether there is a set-up of that name already.
    #[must_use]
    pub fn has_set_up(&self, name: &str) -> bool {
        let path = self.set_ups.folder().and_then(|folder| folder.path(name));
        path.is_ok_and(|path| path.symlink_metadata().is_ok())
    }

    /// Looks for what has been saved.
    pub(super) fn list_set_ups(&mut self) {
        let Some(photo) = &self.document.photo else {
            return;
        };
        let (mut saved, mut faults) = (Vec::new(), Vec::new());
        match self.set_ups.folder() {
            Ok(folder) => {
                for name in folder.names() {
                    match folder.path(&name).and_then(|path| SetUp::load(&path)) {
                        Ok(set_up) => saved.push(Arc::new(SavedSetUp {
                            name,
                            mismatch: set_up.check(photo).err(),
                            set_up,
                        })),
                        Err(error) => faults.push(in_words(&error)),
                    }
                }
            }
            Err(error) => faults.push(in_words(&error)),
        }
        saved.sort_by_key(|saved| saved.mismatch.is_some());
        self.set_ups.saved = saved;
        self.set_ups.faults = faults;
    }

    /// Takes the scale from a saved set-up.
    pub(super) fn pick_set_up(&mut self, name: &str) {
        let saved = self.set_ups.saved.iter().find(|saved| saved.name == name);
        let setting = &mut self.document.scale;
        if let Some(saved) = saved
            && setting.set_up.as_ref() != Some(saved)
        {
            setting.set_up = Some(Arc::clone(saved));
            setting.set_up_fits = false;
        }
    }

    /// Saves the scale as a set-up.
    pub(super) fn save_set_up(&mut self, name: &str, replace: bool) {
        let now = Timestamp::now().strftime("%Y-%m-%dT%H:%M:%SZ").to_string();
        let Some(set_up) = self.new_set_up(now) else {
            return;
        };
        self.notices.forget_trouble();
        let path = self.set_ups.folder().and_then(|folder| folder.path(name));
        let saved = set_up.and_then(|set_up| set_up.save(&path?, replace));
        match saved {
            Ok(()) => self.notify(Tone::Good, text!("saved-the-set-up", name = name)),
            Err(error) => self.notify(Tone::Trouble, in_words(&error)),
        }
    }

    /// The set-up that the scale would make; `None` while there is no scale.
    pub(super) fn new_set_up(&self, saved: String) -> Option<Result<SetUp, SetUpError>> {
        let photo = self.document.photo.as_ref()?;
        let basis = self.document.scale.basis()?;
        let straightened = basis.straightened.as_deref();
        Some(SetUp::of(photo, basis.scale, straightened, saved))
    }
}

/// What went wrong, as a sentence for the window, where set-ups have names only.
fn in_words(error: &SetUpError) -> String {
    match error {
        SetUpError::Name(name) if name.is_empty() => text!("type-a-name-for-the-set").to_owned(),
        SetUpError::Name(name) => text!("no-name-for-a-set-up", name = name),
        SetUpError::NoHome => text!("there-is-no-home-folder-to").to_owned(),
        error => sentence(error),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::photo::Photo;
    use crate::scale::How;
    use crate::session::job::Outcome;
    use crate::session::{Command, Notice, Overview, Question, ScaleStanding};
    use image::RgbImage;
    use std::fs;
    use std::path::Path;
    use tempfile::TempDir;

    /// A session on a photo of that size, its set-ups in a folder.
    fn session(folder: &Path, [width, height]: [u32; 2]) -> Session {
        let mut session = Session::new(Arc::new(|| {})).expect("a thread");
        session.keep_set_ups_in(folder.join("set-ups"));
        let picture = RgbImage::new(width, height);
        session.finish(Outcome::Opened {
            overview: Arc::new(Overview::of(&picture)),
            photo: Arc::new(Photo::from_rgb("ruler.png", picture)),
            usable: Arc::default(),
        });
        session
    }

    fn type_scale(session: &mut Session, px_per_mm: &str) {
        session.apply(Command::UseScaleWay(ScaleWay::Typed));
        session.apply(Command::TypePxPerMm(px_per_mm.to_owned()));
    }

    /// What is said when the scale is saved under a name.
    fn save(session: &mut Session, name: &str, replace: bool) -> Notice {
        let name = name.to_owned();
        session.apply(Command::SaveSetUp { name, replace });
        session.notices().last().expect("a message").clone()
    }

    /// A folder with the set-up `stand` of a photo of 600 × 400 px at 85.25 px per mm.
    fn with_stand() -> TempDir {
        let folder = tempfile::tempdir().expect("a folder");
        let mut session = session(folder.path(), [600, 400]);
        type_scale(&mut session, "85.25");
        assert!(!session.has_set_up("stand"));
        assert_eq!(save(&mut session, "stand", false).tone, Tone::Good);
        assert!(session.has_set_up("stand"));
        folder
    }

    fn pick(session: &mut Session, name: &str) {
        session.apply(Command::UseScaleWay(ScaleWay::SetUp));
        session.apply(Command::PickSetUp(name.to_owned()));
        session.apply(Command::EndAct);
    }

    #[test]
    fn a_saved_scale_serves_another_photo_of_the_same_size() {
        let folder = with_stand();
        let mut session = session(folder.path(), [400, 600]);
        pick(&mut session, "stand");
        let scale = session.document().scale.scale().expect("a scale");
        assert_eq!((scale.px_per_mm, scale.how), (85.25, How::SetUp));
        assert_eq!(session.scale_cautions()[0].code, "set-up");
        assert!(!session.has_scale_to_keep());
        session.apply(Command::Undo);
        assert_eq!(session.document().scale.scale(), None);
        session.apply(Command::Redo);
        assert_eq!(session.document().scale.scale(), Some(scale));
    }

    #[test]
    fn one_that_does_not_fit_is_used_at_a_persons_word_only() {
        let folder = with_stand();
        let mut session = session(folder.path(), [600, 401]);
        pick(&mut session, "stand");
        assert!(
            session.set_ups()[0]
                .label()
                .ends_with("does not fit this photo")
        );
        let ScaleStanding::Asks(question) = session.document().scale.standing() else {
            panic!("used unasked");
        };
        assert!(matches!(question, Question::SetUpFits(_)));
        assert!(question.reason().starts_with("The photo is 600 × 401 px"));
        session.apply(Command::SayYes);
        assert!(session.document().scale.scale().is_some());
        assert_eq!(session.scale_cautions()[0].code, "set-up-differs");
        session.apply(Command::Undo);
        assert_eq!(session.document().scale.scale(), None);
    }

    #[test]
    fn one_that_is_there_is_kept_unless_told_otherwise() {
        let folder = with_stand();
        let file = folder.path().join("set-ups").join("stand.json");
        let before = fs::read(&file).expect("a file");
        let mut session = session(folder.path(), [600, 400]);
        type_scale(&mut session, "90");
        let refused = save(&mut session, "stand", false);
        assert_eq!(refused.tone, Tone::Trouble);
        assert!(refused.text.contains("already"), "{refused:?}");
        assert_eq!(fs::read(&file).expect("a file"), before);
        assert_eq!(save(&mut session, "stand", true).tone, Tone::Good);
        pick(&mut session, "stand");
        let scale = session.document().scale.scale().expect("a scale");
        assert!((scale.px_per_mm - 90.0).abs() < 1e-12);
    }

    #[test]
    fn names_that_are_none_are_refused_in_words() {
        let folder = with_stand();
        let mut session = session(folder.path(), [600, 400]);
        type_scale(&mut session, "85.25");
        for (name, words) in [
            ("", "Type a name"),
            ("a/b", "“a/b” cannot be"),
            (".x", "“.x”"),
        ] {
            let refused = save(&mut session, name, false);
            assert!(refused.text.starts_with(words), "{refused:?}");
        }
        let listed = fs::read_dir(folder.path().join("set-ups")).expect("a folder");
        assert_eq!(listed.count(), 1);
    }

    #[test]
    fn a_broken_one_is_named_and_the_others_stay() {
        let folder = with_stand();
        fs::write(folder.path().join("set-ups").join("lab.json"), "{").expect("a file");
        let mut session = session(folder.path(), [600, 400]);
        pick(&mut session, "lab");
        assert_eq!(session.document().scale.set_up, None);
        assert_eq!(session.set_ups().len(), 1);
        let [fault] = session.set_up_faults() else {
            panic!("no word of it");
        };
        assert!(fault.contains("lab.json"), "{fault}");
    }
}
