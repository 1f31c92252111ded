//! What a person works on in the window: the document, the work under way, what came of it.
//!
//! Nothing here knows the window. It sends [`Command`]s, shows what it finds here, and calls
//! [`Session::poll`] when it is woken.

mod carrying;
mod correcting;
mod distributions;
mod document;
mod filmstrip;
mod flat;
mod folder;
mod format;
mod freehand;
mod history;
mod job;
mod network;
mod notices;
mod overview;
mod picking;
mod preferences;
mod ramp;
pub mod readout;
pub mod record;
mod recovery;
mod restoring;
mod results;
mod save;
mod scale_bar;
mod scale_setting;
mod scale_words;
mod seeking;
mod set_ups;
mod settings;
mod snapping;
mod steps;
mod toning;
mod white;

pub use distributions::{Distribution, Distributions, Measure, Order, Rose, Rows};
pub use document::{Document, is_simple};
pub use filmstrip::{FrameStanding, FrameView};
pub use flat::Flat;
pub use folder::{Folder, FolderCommand, FolderMade, FolderProgress};
pub use freehand::drawn_freely;
pub use job::Wake;
pub use network::{Network, Part as NetworkPart, Web};
pub use notices::{Notice, Tone};
pub use overview::Overview;
pub use picking::PoreCard;
pub use preferences::{Colours, Preferences, RecentPhoto, TextSize, WindowSize};
pub use ramp::ramp;
pub use readout::Readout;
pub use record::{BookCommand, Record};
pub use results::{Results, Sketch};
pub use save::{Export, SaveError, free_name};
pub use scale_bar::ScaleBar;
pub use scale_setting::{
    End, Placed, Question, RulerRead, ScaleSetting, ScaleStanding, ScaleWay, Sought, is_coarse,
};
pub use scale_words::{TICKS, ticks_name};
pub use set_ups::SavedSetUp;
pub use steps::{Step, StepStanding, StepState};
pub use toning::Toning;
pub use white::MarkedWhite;

use crate::Measurement;
use crate::area::Outline;
use crate::corrections::{Corrections, Kind, LeastWall};
use crate::findings::{self, Note, Severity};
use crate::geometry::{Point, Polygon, Rect};
use crate::progress::Stage;
use crate::ruler::Graduation;
use crate::segmentation::Preview;
use crate::units::{Millimetres, Pixels};
use crate::wording::{self, text};
use document::sentence;
use filmstrip::Filmstrip;
use folder::FolderWork;
use history::History;
use job::{Job, Outcome, Report, Worker};
use notices::Notices;
use picking::Picking;
use recovery::Recovery;
use save::Saving;
use set_ups::Shelf;
use settings::Settings;
use std::collections::BTreeSet;
use std::fmt;
use std::mem::{Discriminant, discriminant};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::mpsc::{Receiver, Sender, channel};
use std::thread;
use std::time::{Duration, Instant};

/// Something a person wants done.
#[derive(Debug, Clone, PartialEq)]
pub enum Command {
    /// Open a photo beside those that are open, or go to it where it is open already.
    Open(PathBuf),
    /// Open photos, and go to the first of them.
    OpenAll(Vec<PathBuf>),
    /// Open the sample photo.
    OpenSample,
    /// Work on this photo of the strip.
    GoToFrame(usize),
    /// Take a photo out of the strip.
    CloseFrame(usize),
    /// Carry the scale over to all other photos of the strip.
    CarryScaleOver,
    /// Carry the outline of the area over to all other photos of the strip.
    CarryAreaOver,
    /// Attach the findings of a photo of the strip to a voucher.
    AttachFrame {
        /// Which photo.
        frame: usize,
        /// The voucher's identifier.
        voucher: String,
        /// Whether the photo is copied into the book.
        is_copied: bool,
    },
    /// Take up what was open when a program did not come to its end, or drop it.
    SettleLeftovers(bool),
    /// Choose the way in which the scale is told.
    UseScaleWay(ScaleWay),
    /// Set or move one end of the scale line.
    SetScaleEnd(End, Placed),
    /// Take the scale line away.
    ClearScaleLine,
    /// The length of the scale line, as typed so far.
    TypeLength(String),
    /// Pixels per millimetre, as typed so far.
    TypePxPerMm(String),
    /// Take this one of the strokes that could be the scale bar.
    PickBar(usize),
    /// The scale bar's length, as typed so far.
    TypeBarLength(String),
    /// Read the ruler along this line.
    SetRuler([Point; 2]),
    /// Move one end of the line along the ruler.
    SetRulerEnd(End, Point),
    /// How the ruler is divided; `None` lets its ticks tell.
    UseTicks(Option<Graduation>),
    /// Set or move a corner of the rectangle of known size; one more than there are is added.
    SetCorner(usize, Placed),
    /// Take the rectangle's corners away.
    ClearCorners,
    /// The rectangle's width (0) or height (1), as typed so far.
    TypeSide(usize, String),
    /// Use the saved set-up of this name.
    PickSetUp(String),
    /// Say yes to what is asked about the scale.
    SayYes,
    /// Refer colours to what is white in this part of the picture.
    MarkWhite(Rect),
    /// Take the white away.
    ClearWhite,
    /// Go back from the straightened picture to the photo as it was taken.
    ShowAsTaken,
    /// Look for what the chosen way of telling the scale needs.
    Seek,
    /// Measure within this outline.
    SetOutline(Outline),
    /// Leave out one more part.
    LeaveOut(Polygon),
    /// Change the shape of a part that is left out.
    ReshapeLeftOut(usize, Polygon),
    /// Leave a part out that was found, or measure it anyway.
    LeaveOutFound(usize, bool),
    /// Take the outline away; what to measure is open again.
    ClearOutline,
    /// Leave nothing out any more.
    ClearLeftOut,
    /// Correct a pore: places on the picture, as many as the kind takes.
    Correct(Kind, Vec<Point>),
    /// Delete the selected pores.
    DeleteSelected,
    /// Join the selected pores.
    JoinSelected,
    /// Take one of the corrections by hand away.
    TakeCorrection(usize),
    /// Take all corrections by hand away.
    ClearCorrections,
    /// How high a wall has to be to part two pores; it is worked in after [`Self::EndAct`].
    SetLeastWall(LeastWall),
    /// Select these pores, by their place in the regions that were measured, and no others.
    Select(BTreeSet<usize>),
    /// Point at a pore, or at none.
    PointAt(Option<usize>),
    /// A drag or a piece of typing is over: the next change is an act of its own.
    EndAct,
    /// Take the last change of scale, area or corrections back.
    Undo,
    /// Do again what was taken back last.
    Redo,
    /// Measure.
    Measure,
    /// Stop opening, looking or measuring.
    Cancel,
    /// Write a file; what stands there is replaced.
    Save(Export, PathBuf),
    /// Save the scale as a set-up.
    SaveSetUp {
        /// Under which name.
        name: String,
        /// Whether one of that name may be replaced.
        replace: bool,
    },
    /// Work on the book.
    Book(BookCommand),
    /// Work on a folder of photos.
    Folder(FolderCommand),
    /// Take a notice away.
    Dismiss(usize),
}

/// What the worker does at the moment.
#[derive(Debug, Clone, PartialEq)]
pub enum Work {
    /// Nothing.
    Idle,
    /// Reading this photo.
    Opening(PathBuf),
    /// Looking for what gives the scale, at this stage once the first is reached.
    Seeking(Sought, Option<Stage>),
    /// Measuring, at this stage once the first is reached.
    Measuring(Option<Stage>),
    /// Working out the figures at a new scale, or by a new white.
    Refiguring,
    /// Working these corrections in.
    Correcting(Arc<Corrections>),
}

/// What came of saving, and whose findings they were.
struct Saved {
    notice: Notice,
    of: Arc<Measurement>,
}

/// Everything behind the window.
pub struct Session {
    document: Document,
    history: History<Document>,
    /// What kind of change the person is in the middle of.
    act: Option<Discriminant<Command>>,
    overview: Option<Arc<Overview>>,
    results: Option<Results>,
    picking: Picking,
    /// What outlines are previewed from while walls are being taken otherwise.
    preview: Option<Arc<Preview>>,
    work: Work,
    worker: Worker,
    wake: Wake,
    saves: (Sender<Saved>, Receiver<Saved>),
    saving: usize,
    saved: bool,
    strip: Filmstrip,
    /// Whether measuring was stopped because another photo was wanted.
    is_to_be_measured: bool,
    /// What is still to be set on the photo that was opened, once what its scale rests on is found.
    restoring: Option<Settings>,
    recovery: Recovery,
    preferences: preferences::Kept,
    /// The step whose work was stopped by the person, until it is begun again.
    stopped: Option<Step>,
    notices: Notices,
    set_ups: Shelf,
    record: Record,
    folder: FolderWork,
}

impl fmt::Debug for Session {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Session")
            .field("document", &self.document)
            .field("work", &self.work)
            .field("notices", &self.notices)
            .finish_non_exhaustive()
    }
}

impl Session {
    /// A session without a photo; `wake` is called from another thread when [`Self::poll`] has
    /// something to fetch.
    ///
    /// # Errors
    /// When the system gives no thread to work on.
    pub fn new(wake: Wake) -> std::io::Result<Self> {
        Ok(Self {
            document: Document::default(),
            history: History::default(),
            act: None,
            overview: None,
            results: None,
            picking: Picking::default(),
            preview: None,
            work: Work::Idle,
            worker: Worker::start(Arc::clone(&wake))?,
            wake,
            saves: channel(),
            saving: 0,
            saved: false,
            strip: Filmstrip::default(),
            is_to_be_measured: false,
            restoring: None,
            recovery: Recovery::default(),
            preferences: preferences::Kept::default(),
            stopped: None,
            notices: Notices::default(),
            set_ups: Shelf::default(),
            record: Record::default(),
            folder: FolderWork::default(),
        })
    }

    /// What has been set.
    #[must_use]
    pub const fn document(&self) -> &Document {
        &self.document
    }

    /// The picture at the size of a screen.
    #[must_use]
    pub fn overview(&self) -> Option<&Arc<Overview>> {
        match &self.document.scale.flat {
            Some(flat) => Some(&flat.overview),
            None => self.overview.as_ref(),
        }
    }

    /// What came of the last measuring, up to date or not.
    #[must_use]
    pub const fn results(&self) -> Option<&Results> {
        self.results.as_ref()
    }

    /// What stands against measuring all of the photo, before it is measured: that nothing of it can
    /// be used.
    #[must_use]
    pub fn warning(&self) -> Option<Note> {
        let area = &self.document.area;
        let note = findings::unusable_parts(area, self.document.usable())?;
        (area.outline == Outline::WholePhoto && note.severity == Severity::Stop).then_some(note)
    }

    /// What the worker does.
    #[must_use]
    pub const fn work(&self) -> &Work {
        &self.work
    }

    /// Messages, the oldest first.
    #[must_use]
    pub fn notices(&self) -> &[Notice] {
        self.notices.all()
    }

    /// Takes away messages that have stood long enough; says when the next will have.
    pub fn tidy_notices(&mut self, now: Instant) -> Option<Duration> {
        self.notices.tidy(now)
    }

    /// Whether there are findings that would be lost with the window.
    #[must_use]
    pub const fn has_unsaved_findings(&self) -> bool {
        self.results.is_some() && !self.saved
    }

    /// Whether a change of scale, area or corrections can be taken back.
    #[must_use]
    pub const fn can_undo(&self) -> bool {
        self.history.can_undo()
    }

    /// Whether a change that was taken back can be done again.
    #[must_use]
    pub const fn can_redo(&self) -> bool {
        self.history.can_redo()
    }

    /// Whether anything is still being read, measured or written.
    #[must_use]
    pub fn is_busy(&self) -> bool {
        self.work != Work::Idle || self.saving > 0 || self.record.is_busy()
    }

    /// Why the results do not belong to what is set now; `None` when they do, or there are none.
    #[must_use]
    pub fn outdated(&self) -> Option<&'static str> {
        let results = self.results.as_ref()?;
        let Some(basis) = self.document.basis() else {
            return Some(match self.document.scale.standing() {
                ScaleStanding::Asks(_) => {
                    text!("something-is-asked-about-the-scale")
                }
                _ => text!("the-scale-is-gone-set-it"),
            });
        };
        self.outdated_area().or_else(|| {
            if self.is_correcting() {
                Some(text!("corrections-are-worked-in"))
            } else if basis.figures_like(&results.basis) {
                None
            } else if basis.scale == results.basis.scale {
                Some(text!("working-out-the-figures-anew"))
            } else {
                Some(text!("working-out-the-figures-at-the"))
            }
        })
    }

    /// Why the outlines do not belong to the area set now; `None` when they do, or there are none.
    #[must_use]
    pub fn outdated_area(&self) -> Option<&'static str> {
        let results = self.results.as_ref()?;
        if !self.is_of_picture(results) {
            Some(text!("the-picture-has-changed-since-measure"))
        } else if results.area != self.document.measured_area() {
            Some(text!("the-area-has-changed-since-measure"))
        } else {
            None
        }
    }

    fn is_of_picture(&self, results: &Results) -> bool {
        self.document
            .picture()
            .is_some_and(|picture| Arc::ptr_eq(picture, &results.photo))
    }

    /// The scale line's length, on the photo and as typed.
    #[must_use]
    pub fn scale_line_label(&self) -> String {
        let scale = &self.document.scale;
        match (
            scale.first,
            scale.second,
            scale.length.parse::<Millimetres>(),
        ) {
            (Some(first), Some(second), Ok(length)) => {
                format!("{length} = {:.1} px", first.at.distance(second.at))
            }
            _ => String::new(),
        }
    }

    /// Each found part in words, and whether it is left out: its number on the photo, the reason, its
    /// share of the photo.
    #[must_use]
    pub fn found_labels(&self) -> Vec<(String, bool)> {
        self.document
            .found()
            .enumerate()
            .map(|(i, (part, is_left_out))| {
                let share = format::per_cent(part.share);
                let label = format!("{}: {}, {share}", i + 1, wording::word(part.reason.label()));
                (label, is_left_out)
            })
            .collect()
    }

    /// A place on the photo in numbers: in px, and in mm once there is a scale.
    #[must_use]
    pub fn place_label(&self, place: Point) -> String {
        let px = format!("x {:.0}, y {:.0} px", place.x, place.y);
        match self.document.scale.scale() {
            Some(scale) => {
                let mm = |at| scale.millimetres(Pixels(at)).0;
                format!("{px} = {:.2}, {:.2} mm", mm(place.x), mm(place.y))
            }
            None => px,
        }
    }

    /// Why measuring cannot start now; `None` when it can.
    #[must_use]
    pub fn why_not_measure(&self) -> Option<&'static str> {
        if self.document.photo.is_none() {
            Some(text!("open-a-photo-first"))
        } else if self.document.scale.scale().is_none() {
            Some(text!("set-the-scale-first"))
        } else if matches!(
            self.work,
            Work::Opening(_) | Work::Measuring(_) | Work::Seeking(..)
        ) {
            Some(text!("wait-until-the-present-work-is"))
        } else {
            None
        }
    }

    /// Why nothing can be saved now; `None` when it can.
    #[must_use]
    pub fn why_not_save(&self) -> Option<&'static str> {
        if self.results.is_none() {
            Some(text!("measure-first"))
        } else {
            self.outdated()
        }
    }

    /// Says something to the person.
    pub fn notify(&mut self, tone: Tone, text: impl Into<String>) {
        self.notices.add(Notice::new(tone, text));
    }

    /// Does what a person wants.
    pub fn apply(&mut self, command: Command) {
        let chooses_way = matches!(command, Command::UseScaleWay(_));
        let is_an_act = !matches!(
            command,
            Command::PointAt(_) | Command::Select(_) | Command::Dismiss(_) | Command::Folder(_)
        );
        if matches!(command, Command::UseScaleWay(ScaleWay::SetUp)) {
            self.list_set_ups();
        }
        if Self::begins_scale_anew(&command) && self.stopped == Some(Step::Scale) {
            self.stopped = None;
        }
        match command {
            Command::Seek => self.seek(),
            Command::Open(path) => self.open(&path),
            Command::OpenAll(paths) => self.open_all(paths),
            Command::OpenSample => self.open_sample(),
            Command::GoToFrame(at) => self.go_to_frame(at),
            Command::CloseFrame(at) => self.close_frame(at),
            Command::CarryScaleOver => self.carry_scale_over(),
            Command::CarryAreaOver => self.carry_area_over(),
            Command::AttachFrame {
                frame,
                voucher,
                is_copied,
            } => self.attach_frame(frame, voucher, is_copied),
            Command::SettleLeftovers(takes_up) => self.settle_leftovers(takes_up),
            Command::Measure => self.measure(),
            Command::Cancel => self.cancel(),
            Command::Save(export, path) => self.save(export, path),
            Command::SaveSetUp { name, replace } => self.save_set_up(&name, replace),
            Command::Book(command) => self.work_on_book(command),
            Command::Folder(command) => self.work_on_folder(command),
            Command::Dismiss(index) => self.notices.dismiss(index),
            Command::Select(pores) => self.select(pores),
            Command::PointAt(pore) => self.point_at(pore),
            Command::EndAct => self.act = None,
            // What was set before is being set again, and would undo this.
            _ if self.restoring.is_some() => {}
            Command::Undo => {
                if let Some(earlier) = self.history.undo(self.document.clone()) {
                    self.document = earlier;
                }
                self.act = None;
            }
            Command::Redo => {
                if let Some(later) = self.history.redo(self.document.clone()) {
                    self.document = later;
                }
                self.act = None;
            }
            change => {
                // Two corrections are two acts, however quickly one follows the other.
                let is_whole = matches!(
                    change,
                    Command::Correct(..)
                        | Command::DeleteSelected
                        | Command::JoinSelected
                        | Command::TakeCorrection(_)
                        | Command::ClearCorrections
                );
                let kind = discriminant(&change);
                let before = self.document.clone();
                self.set(change);
                if !self.document.is_set_like(&before) {
                    if self.act != Some(kind) {
                        self.history.keep(before);
                    }
                    self.act = (!is_whole).then_some(kind);
                }
            }
        }
        self.seek_as_set(chooses_way);
        self.refigure_if_needed();
        if is_an_act {
            self.keep_for_recovery();
        }
    }

    /// Whether the person is in the middle of setting how walls are taken.
    fn is_setting_walls(&self) -> bool {
        self.act == Some(discriminant(&Command::SetLeastWall(LeastWall::USUAL)))
    }

    /// A change of scale, area or corrections.
    #[expect(
        clippy::too_many_lines,
        reason = "a few lines for each thing that is set"
    )]
    fn set(&mut self, change: Command) {
        let document = &mut self.document;
        match change {
            Command::UseScaleWay(way) if way != document.scale.way => {
                document.show_as_taken();
                document.scale.way = way;
            }
            Command::SetScaleEnd(end, mut placed) => {
                placed.at = document.onto_photo(placed.at);
                match end {
                    End::First => document.scale.first = Some(placed),
                    End::Second => document.scale.second = Some(placed),
                }
            }
            Command::ClearScaleLine => {
                document.scale.first = None;
                document.scale.second = None;
            }
            Command::TypeLength(text) => document.scale.length = text,
            Command::TypePxPerMm(text) => document.scale.px_per_mm = text,
            Command::PickBar(bar) => document.scale.bar = Some(bar),
            Command::TypeBarLength(text) => document.scale.bar_length = text,
            Command::SetRuler(line) => {
                document.scale.ruler = Some(line.map(|end| document.onto_photo(end)));
            }
            Command::SetRulerEnd(end, place) => {
                let place = document.onto_photo(place);
                if let Some(line) = &mut document.scale.ruler {
                    line[usize::from(end == End::Second)] = place;
                }
            }
            Command::UseTicks(ticks) => document.scale.ticks = ticks,
            Command::SetCorner(i, mut placed) => {
                placed.at = document.onto_photo(placed.at);
                let corners = &mut document.scale.corners;
                if let Some(corner) = corners.get_mut(i) {
                    *corner = placed;
                } else if corners.len() < 4 {
                    corners.push(placed);
                }
            }
            Command::ClearCorners => document.scale.corners.clear(),
            Command::TypeSide(side, text) => {
                if let Some(typed) = document.scale.sides.get_mut(side) {
                    *typed = text;
                }
            }
            Command::PickSetUp(name) => self.pick_set_up(&name),
            Command::SayYes => document.scale.say_yes(),
            Command::MarkWhite(patch) => self.mark_white(patch),
            Command::ClearWhite => document.white = None,
            Command::ShowAsTaken => document.show_as_taken(),
            Command::SetOutline(Outline::Polygon(polygon)) if !is_simple(&polygon) => {
                self.refuse_shape();
            }
            Command::SetOutline(outline) => {
                document.area.outline = outline;
                document.area_is_chosen = true;
            }
            Command::LeaveOut(polygon) if !is_simple(&polygon) => self.refuse_shape(),
            Command::LeaveOut(polygon) => document.area.left_out.push(polygon.into()),
            Command::ReshapeLeftOut(index, polygon) => {
                if let Some(part) = document.area.left_out.get_mut(index)
                    && is_simple(&polygon)
                {
                    *part = polygon.into();
                }
            }
            Command::ClearOutline => {
                document.area.outline = Outline::WholePhoto;
                document.area_is_chosen = false;
            }
            Command::LeaveOutFound(part, true) => {
                document.measured_anyway.remove(&part);
            }
            Command::LeaveOutFound(part, false) => {
                document.measured_anyway.insert(part);
            }
            Command::ClearLeftOut => document.area.left_out.clear(),
            Command::Correct(..)
            | Command::DeleteSelected
            | Command::JoinSelected
            | Command::TakeCorrection(_)
            | Command::ClearCorrections
            | Command::SetLeastWall(_) => self.correct(change),
            Command::Open(_)
            | Command::OpenAll(_)
            | Command::OpenSample
            | Command::GoToFrame(_)
            | Command::CloseFrame(_)
            | Command::CarryScaleOver
            | Command::CarryAreaOver
            | Command::AttachFrame { .. }
            | Command::SettleLeftovers(_)
            | Command::UseScaleWay(_)
            | Command::Seek
            | Command::Measure
            | Command::Cancel
            | Command::Save(..)
            | Command::SaveSetUp { .. }
            | Command::Book(_)
            | Command::Folder(_)
            | Command::Dismiss(_)
            | Command::Select(_)
            | Command::PointAt(_)
            | Command::EndAct
            | Command::Undo
            | Command::Redo => {}
        }
    }

    /// Fetches what the worker has to tell.
    pub fn poll(&mut self) {
        let mut has_heard = false;
        for report in self.worker.reports() {
            has_heard = true;
            match report {
                Report::Stage(stage) => {
                    if let Work::Measuring(at) | Work::Seeking(_, at) = &mut self.work {
                        *at = Some(stage);
                    }
                }
                Report::Preview(preview) => self.preview = preview,
                Report::Finished(outcome) => {
                    let work = std::mem::replace(&mut self.work, Work::Idle);
                    let is_again = matches!(work, Work::Refiguring | Work::Correcting(_));
                    if is_again && matches!(outcome, Outcome::Failed(_)) {
                        // Asked again it would fail again, for ever.
                        self.take_results(None);
                    }
                    self.finish(outcome);
                }
            }
        }
        while let Ok(Saved { notice, of }) = self.saves.1.try_recv() {
            self.saving -= 1;
            has_heard = true;
            if notice.tone == Tone::Good {
                self.mark_saved(&of);
            }
            self.notices.add(notice);
        }
        has_heard |= self.hear_of_book();
        self.hear_of_folder();
        self.seek_as_set(false);
        self.go_on_restoring();
        self.refigure_if_needed();
        if has_heard {
            self.keep_for_recovery();
        }
    }

    fn cancel(&mut self) {
        self.leave_unopened(None);
        self.stopped = match self.work {
            Work::Opening(_) => Some(Step::Photo),
            Work::Measuring(_) => Some(Step::Pores),
            Work::Seeking(..) => Some(Step::Scale),
            Work::Idle | Work::Refiguring | Work::Correcting(_) => None,
        };
        self.worker.cancel();
        self.work = Work::Idle;
    }

    fn measure(&mut self) {
        if self.why_not_measure().is_none()
            && let (Some(photo), Some(basis)) = (self.document.picture(), self.document.basis())
        {
            self.stopped = None;
            self.record.measures_again = false;
            self.work = Work::Measuring(None);
            self.worker.submit(Job::Measure {
                photo: Arc::clone(photo),
                area: self.document.measured_area(),
                corrections: Arc::clone(&self.document.corrections),
                basis,
                usable: Arc::clone(self.document.usable()),
            });
        }
    }

    /// A changed scale or white needs new figures, but nothing seen anew; changed corrections need
    /// outlines anew.
    fn refigure_if_needed(&mut self) {
        self.recorrect_if_needed();
        if let (Some(results), Some(basis)) = (&self.results, self.document.basis())
            && self.work == Work::Idle
            && !basis.figures_like(&results.basis)
            && self.outdated_area().is_none()
        {
            self.work = Work::Refiguring;
            self.worker.submit(Job::Figure {
                photo: Arc::clone(&results.photo),
                area: results.area.clone(),
                traced: Arc::clone(&results.traced),
                usable: Arc::clone(&results.usable),
                basis,
            });
        }
    }

    fn finish(&mut self, outcome: Outcome) {
        match outcome {
            Outcome::Opened {
                photo,
                overview,
                usable,
            } => {
                self.take_opened(photo, overview, usable);
            }
            Outcome::Bars(bars) => self.take_bars(bars),
            Outcome::Ruler(read) => self.document.scale.read = Some(read),
            Outcome::Straightened(flat) => self.take_flat(flat),
            Outcome::Measured(results) => {
                self.take_results(Some(*results));
                self.saved = std::mem::take(&mut self.record.measures_again);
                self.compare_anew();
            }
            Outcome::Failed(why) => {
                self.notify(Tone::Trouble, why.clone());
                self.leave_unopened(Some(&why));
            }
            Outcome::Cancelled => {}
        }
    }

    fn save(&mut self, export: Export, path: PathBuf) {
        if let (None, Some(results)) = (self.why_not_save(), &self.results) {
            let saving = Saving {
                export,
                path,
                photo: Arc::clone(&results.photo),
                area: results.area.clone(),
                measurement: Arc::clone(&results.measurement),
            };
            let of = Arc::clone(&results.measurement);
            let outbox = self.saves.0.clone();
            let wake = Arc::clone(&self.wake);
            let started = thread::Builder::new()
                .name("poreline-save".to_owned())
                .spawn(move || {
                    let notice = match saving.run() {
                        Ok(()) => {
                            Notice::new(Tone::Good, text!("saved-to", path = saving.path.display()))
                        }
                        Err(error) => Notice::new(Tone::Trouble, sentence(&error)),
                    };
                    drop(outbox.send(Saved { notice, of }));
                    wake();
                });
            match started {
                Ok(_) => self.saving += 1,
                Err(error) => self.notify(
                    Tone::Trouble,
                    text!("the-file-was-not-saved", error = error),
                ),
            }
        }
    }

    fn refuse_shape(&mut self) {
        self.notify(
            Tone::Trouble,
            text!("that-outline-crosses-itself-or-encloses"),
        );
    }

    /// The window's title: what is open and what was found on it.
    #[must_use]
    pub fn title(&self) -> String {
        let Some(photo) = &self.document.photo else {
            return "Poreline".to_owned();
        };
        let name = file_name(&photo.path);
        match &self.results {
            Some(results) if self.outdated().is_none() => {
                text!(
                    "title-of-photo-and-findings",
                    photo = name,
                    findings = results.readout.title()
                )
            }
            _ => text!("title-of-photo", photo = name),
        }
    }
}

/// The last part of a path, for people.
#[must_use]
pub fn file_name(path: &Path) -> String {
    path.file_name()
        .unwrap_or(path.as_os_str())
        .to_string_lossy()
        .into_owned()
}
