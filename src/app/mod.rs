//! The window: shows what a [`Session`] holds and sends it commands.
//!
//! Nothing here measures, and nothing changes the document while it is painted: views push
//! commands, which are applied once the frame is done.

mod actions;
mod canvas;
mod charts;
mod dialog;
mod explained;
mod files;
mod filmstrip;
mod finder;
mod findings;
mod guide;
mod keys;
mod notices;
mod preferences;
mod rail;
mod record;
mod sheets;
mod steps;
mod terms;
mod theme;
mod wishes;

use crate::export::darwin_core::Places;
use crate::geometry::Rect;
use crate::photo::Photo;
use crate::session::record::Outgoing;
use crate::session::{
    BookCommand, Command, Folder, FolderCommand, Preferences, Session, Sought, Step, Tone, Wake,
    WindowSize, Work,
};
use crate::wording::{Language, text};
use canvas::{Canvas, Look};
use dialog::{Dialog, Purpose};
use egui::{CentralPanel, Context, Frame, Margin, Panel, Ui, ViewportCommand};
use files::File;
use finder::Finder;
use guide::Guide;
use record::{Pictures, View};
use sheets::{Answer, Leaving, Sheet};
use std::fmt;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::Instant;

/// Width of the steps: least, most, and share of the window's; points.
const RAIL: (f32, f32, f32) = (248.0, 284.0, 0.222);
/// Width of the findings, likewise.
const FINDINGS: (f32, f32, f32) = (292.0, 328.0, 0.257);
/// A window narrower than this has no room for the findings beside the photo, points.
const NARROW: f32 = 860.0;

/// Why there is no window.
#[derive(Debug, thiserror::Error)]
#[error(
    "the window could not be opened: {}. `poreline measure PHOTO` measures without one; \
     `poreline measure --help` tells how",
    self.reason()
)]
pub struct WindowError(#[from] eframe::Error);

impl WindowError {
    /// In plain words; what the system says names files of its own and helps nobody.
    const fn reason(&self) -> &'static str {
        match self.0 {
            eframe::Error::Winit(_) | eframe::Error::WinitEventLoop(_) => {
                "no screen was found to show it on"
            }
            eframe::Error::AppCreation(_) => "the system gave it no thread to work on",
            _ => "the graphics driver offers no OpenGL",
        }
    }
}

/// Opens the window, with the photos in it, and comes back when it is closed.
///
/// # Errors
/// [`WindowError`] when the system shows no window.
pub fn run(photos: Vec<PathBuf>) -> Result<(), WindowError> {
    let remembered = Preferences::of_person().window;
    let mut viewport = egui::ViewportBuilder::default()
        .with_app_id("poreline")
        .with_title("Poreline")
        .with_inner_size(remembered.map_or([1280.0, 800.0], |window| window.size))
        .with_maximized(remembered.is_some_and(|window| window.is_maximised))
        .with_min_inner_size([960.0, 640.0]);
    if let Ok(icon) = eframe::icon_data::from_png_bytes(include_bytes!("../../assets/icon.png")) {
        viewport = viewport.with_icon(icon);
    }
    let options = eframe::NativeOptions {
        viewport,
        renderer: eframe::Renderer::Glow,
        ..eframe::NativeOptions::default()
    };
    eframe::run_native(
        "Poreline",
        options,
        Box::new(|creation| {
            let mut app = App::new(&creation.egui_ctx, photos)?;
            app.memory.system_language = Language::of_tags(sys_locale::get_locales());
            app.session.remember_preferences();
            app.session.remember_book();
            app.session.keep_safe();
            app.ask_about_leftovers();
            Ok(Box::new(app))
        }),
    )?;
    Ok(())
}

/// What the window remembers that is no part of the document: what is open, what is half typed.
#[expect(clippy::struct_excessive_bools, reason = "each is a fact of its own")]
struct Memory {
    step: Step,
    canvas: Canvas,
    /// A photo's path being typed.
    path: String,
    /// A folder to save in, being typed.
    folder: String,
    /// The name of a set-up, being typed.
    set_up_name: String,
    /// The folder of a book, being typed.
    book_folder: String,
    /// A new book, being typed.
    new_book: NewBook,
    /// How much is told of places in files of the book.
    places: Places,
    /// Small pictures in the list of vouchers and in the strip of photos.
    pictures: Pictures,
    /// The photo that is shown.
    shown: Option<Arc<Photo>>,
    /// The photo of the strip that was brought into sight.
    frame_shown: Option<usize>,
    /// Whether photos are copied into the book.
    copies_photo: bool,
    /// What stands in the middle in the last step.
    view: View,
    /// What gets the keyboard in the next frame.
    keyboard_to: Option<KeyboardTo>,
    /// Whether saving without a file dialog is unfolded in the next frame.
    unfolds_folder: bool,
    /// Whether saving files of the book without a file dialog is unfolded in the next frame.
    unfolds_book_folder: bool,
    /// Whether opening a book is unfolded in the next frame.
    unfolds_book: bool,
    /// The file dialog that is open.
    dialog: Option<Dialog>,
    /// What is looked for in the finder.
    finder: Finder,
    /// What the window speaks where nothing else is preferred.
    system_language: Language,
    /// The preferences that the window looks by.
    looks_as: Option<Preferences>,
    /// How large the window is.
    window_size: Option<WindowSize>,
    /// Whether the findings are shown instead of the photo where the window is narrow.
    shows_findings: bool,
    /// How far the guide is, while it is open.
    guide: Option<Guide>,
    /// What lies over the window.
    sheet: Option<Sheet>,
    /// Whether it was laid there in this frame.
    sheet_is_new: bool,
    /// What to go on with once the findings are saved.
    after_saving: Option<Leaving>,
    /// What to go on with once the voucher is saved.
    after_voucher: Option<AfterVoucher>,
    /// Whether the window may be closed without asking.
    may_close: bool,
}

/// What waits for a voucher to be saved.
enum AfterVoucher {
    /// Work on the book.
    Book(BookCommand),
    /// Closing the window.
    Close,
}

/// A book to be made, as far as it has been typed.
struct NewBook {
    folder: String,
    name: String,
    numbers: String,
}

/// A control that gets the keyboard without being asked for by the Tab key.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum KeyboardTo {
    /// The first control of the step that opens.
    FirstControl,
    /// The field for a photo's path.
    Path,
    /// The field for the length of the scale bar.
    Length,
    /// The field for the folder of a book.
    BookFolder,
    /// The field for a folder of photos.
    PhotoFolder,
    /// The field in which vouchers are found.
    Find,
}

/// What a view wants done: to the document, or to the window.
enum Wish {
    /// A command for the session.
    Do(Command),
    /// Show a step.
    Go(Step),
    /// Take a photo out of the strip, after asking where findings would be lost.
    CloseFrame(usize),
    /// A command for the book, after asking where something typed would be lost.
    Book(BookCommand),
    /// Show something else in the middle of the last step.
    Show(View),
    /// Ask for the folder of a book, or of photos.
    AskFolder(Purpose),
    /// Go to what is asked of a folder of photos.
    ToFolder,
    /// Open a file with the program that the system has for it.
    OpenOutside(PathBuf),
    /// Ask whether what was typed into a voucher is to be dropped.
    AskDrop,
    /// Ask for a photo.
    AskOpen,
    /// Ask where to save.
    AskSave(File),
    /// Save in the folder typed in, after asking where a file would be replaced.
    SaveInFolder(File),
    /// Attach the findings to the voucher that is filled in.
    Attach,
    /// Show this place of the picture.
    ShowPlace(Rect),
    /// Bring this pore into sight.
    ShowPore(usize),
    /// Let something white be marked on the photo.
    MarkWhite,
    /// Save the scale as a set-up of the name typed in, after asking where one would be replaced.
    SaveSetUp,
    /// Lay a sheet over the window.
    Lay(Sheet),
    /// Open the sample photo and begin the guide.
    BeginGuide,
    /// Show the photo otherwise.
    Look(Look),
    /// Give the keyboard to the photo.
    KeyboardToPhoto,
    /// The answer to what lies over the window.
    Answer(Answer),
    /// Like something else from now on.
    Prefer(Box<Preferences>),
    /// Show or hide the findings, where the window is narrow.
    ShowFindings(bool),
}

/// The window's contents.
pub struct App {
    session: Session,
    memory: Memory,
    title: String,
}

impl fmt::Debug for App {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("App")
            .field("session", &self.session)
            .field("step", &self.memory.step)
            .finish_non_exhaustive()
    }
}

impl App {
    /// The contents, opening the photos.
    ///
    /// # Errors
    /// When the system gives no thread to work on.
    pub fn new(ctx: &Context, photos: Vec<PathBuf>) -> std::io::Result<Self> {
        theme::install(ctx);
        let waker = ctx.clone();
        let wake: Wake = Arc::new(move || waker.request_repaint());
        let mut app = Self {
            session: Session::new(wake)?,
            memory: Memory {
                step: Step::Photo,
                canvas: Canvas::default(),
                path: String::new(),
                folder: String::new(),
                set_up_name: String::new(),
                book_folder: String::new(),
                new_book: NewBook {
                    folder: String::new(),
                    name: String::new(),
                    numbers: steps::record::NUMBERS.to_owned(),
                },
                places: Places::AsRecorded,
                pictures: Pictures::new(ctx),
                shown: None,
                frame_shown: None,
                copies_photo: true,
                view: View::Photo,
                keyboard_to: None,
                unfolds_folder: false,
                unfolds_book_folder: false,
                unfolds_book: false,
                dialog: None,
                system_language: Language::English,
                looks_as: None,
                window_size: None,
                shows_findings: false,
                finder: Finder::default(),
                guide: None,
                sheet: None,
                sheet_is_new: false,
                after_saving: None,
                after_voucher: None,
                may_close: false,
            },
            title: String::new(),
        };
        app.open_all(photos);
        Ok(app)
    }

    /// Keeps set-ups in a folder of its own, not with the person's settings.
    pub fn keep_set_ups_in(&mut self, folder: PathBuf) {
        self.session.keep_set_ups_in(folder);
    }

    /// Keeps what is done safe from a crash in a folder of its own, and asks about what a crash left
    /// there.
    pub fn keep_safe_in(&mut self, folder: &Path) {
        self.session.keep_safe_in(folder);
        self.ask_about_leftovers();
    }

    fn ask_about_leftovers(&mut self) {
        if !self.session.leftovers().is_empty() {
            self.lay(Sheet::Leftovers);
        }
    }

    /// Remembers what the person likes in a file of its own, not with the person's settings.
    pub fn remember_preferences_in(&mut self, file: PathBuf) {
        self.session.remember_preferences_in(file);
    }

    /// Remembers the open book in a file of its own, not with the person's settings, and opens the one
    /// that was open last.
    pub fn remember_book_in(&mut self, file: PathBuf) {
        self.session.remember_book_in(file);
    }

    /// What the window shows, for tests.
    #[must_use]
    pub const fn session(&self) -> &Session {
        &self.session
    }

    fn open_all(&mut self, photos: Vec<PathBuf>) {
        if !photos.is_empty() {
            self.session.apply(Command::OpenAll(photos));
        }
    }

    fn lay(&mut self, sheet: Sheet) {
        self.memory.sheet = Some(sheet);
        self.memory.sheet_is_new = true;
    }

    /// Shows a step and gives the keyboard to its first control.
    fn go(&mut self, step: Step) {
        self.memory.canvas.stop_marking_white();
        self.memory.step = step;
        self.memory.keyboard_to = Some(KeyboardTo::FirstControl);
    }

    /// Everything that happened since the last frame, the person's doings in the window excepted.
    fn catch_up(&mut self, ctx: &Context) {
        preferences::follow(ctx, &mut self.session, &mut self.memory);
        self.memory.window_size = preferences::window_size(ctx).or(self.memory.window_size);
        self.catch_up_with_work();
        self.go_on_after_voucher(ctx);
        let dropped = ctx.input_mut(|i| std::mem::take(&mut i.raw.dropped_files));
        let dropped = dropped.into_iter().map(|file| file.path().to_owned());
        self.open_all(dropped.collect());
        self.catch_up_with_dialog();
        if self.memory.after_saving.is_some()
            && self.memory.dialog.is_none()
            && !self.session.is_busy()
            && let Some(leaving) = self.memory.after_saving.take()
            && !self.session.has_unsaved_findings()
        {
            self.leave_at_once(ctx, leaving);
        }
        if ctx.input(|i| i.viewport().close_requested()) && !self.memory.may_close {
            let sheet = if self.session.has_unsaved_voucher() {
                Some(Sheet::LoseVoucher(None))
            } else if !self.session.unsaved_photos().is_empty() {
                Some(Sheet::Lose(Leaving::Close))
            } else {
                None
            };
            if let Some(sheet) = sheet {
                ctx.send_viewport_cmd(ViewportCommand::CancelClose);
                self.lay(sheet);
            }
        }
        if let Some(left) = self.session.tidy_notices(Instant::now()) {
            ctx.request_repaint_after(left);
        }
        guide::follow(&self.session, &mut self.memory);
        let title = self.session.title();
        if title != self.title {
            ctx.send_viewport_cmd(ViewportCommand::Title(title.clone()));
            self.title = title;
        }
    }

    fn catch_up_with_work(&mut self) {
        let was_seeking = matches!(self.session.work(), Work::Seeking(Sought::Bar, _));
        let was_measuring = matches!(self.session.work(), Work::Measuring(_));
        let book = |session: &Session| session.record().book().map(|b| b.folder().to_owned());
        let book_before = book(&self.session);
        self.session.poll();
        if book(&self.session) != book_before {
            self.memory.view = View::Book;
            if let Some(folder) = File::Book(Outgoing::Table).folder(&self.session)
                && self.memory.folder.is_empty()
            {
                self.memory.folder = folder.display().to_string();
            }
            self.memory.keyboard_to =
                (self.memory.step == Step::Record).then_some(KeyboardTo::Find);
        }
        if self.session.record().conflict().is_some()
            && !matches!(self.memory.sheet, Some(Sheet::Conflict))
        {
            self.lay(Sheet::Conflict);
        }
        self.catch_up_with_photo();
        if was_seeking && *self.session.work() == Work::Idle && self.memory.step == Step::Scale {
            self.memory.keyboard_to = Some(KeyboardTo::Length);
        }
        if was_measuring && *self.session.work() == Work::Idle && self.session.results().is_some() {
            self.go(Step::Pores);
        }
    }

    /// Shows the photo that is worked on now, at the step that it needs.
    fn catch_up_with_photo(&mut self) {
        let photo = self.session.document().photo.as_ref();
        let is_shown = match (&self.memory.shown, photo) {
            (Some(shown), Some(photo)) => Arc::ptr_eq(shown, photo),
            (None, None) => true,
            _ => false,
        };
        if is_shown {
            return;
        }
        self.memory.shown = photo.cloned();
        self.memory.canvas.reset();
        let Some(photo) = photo else {
            self.go(Step::Photo);
            return;
        };
        self.memory.folder = photo
            .path
            .parent()
            .filter(|folder| !folder.as_os_str().is_empty())
            .map_or_else(|| ".".to_owned(), |folder| folder.display().to_string());
        let has_scale = self.session.document().scale.scale().is_some();
        let has_results = self.session.results().is_some();
        match self.memory.step {
            _ if !has_scale => self.go(Step::Scale),
            Step::Photo if has_results => self.go(Step::Pores),
            Step::Photo => self.go(Step::Area),
            _ => {}
        }
    }

    fn catch_up_with_dialog(&mut self) {
        let Some(answer) = self.memory.dialog.as_ref().and_then(Dialog::answer) else {
            return;
        };
        self.memory.dialog = None;
        let instead = match answer {
            dialog::Answer::File(Purpose::Book, folder) => {
                self.work_on_book(BookCommand::Open(folder));
                return;
            }
            dialog::Answer::File(Purpose::PhotoFolder, folder) => {
                let asked = Folder {
                    photos: folder.display().to_string(),
                    ..self.session.folder().clone()
                };
                let command = FolderCommand::Ask(asked);
                self.session.apply(Command::Folder(command));
                return;
            }
            dialog::Answer::NoDialog(Purpose::PhotoFolder) => {
                self.memory.step = Step::Photo;
                self.memory.keyboard_to = Some(KeyboardTo::PhotoFolder);
                text!("type-the-folder-of-photos-in")
            }
            dialog::Answer::NoDialog(Purpose::Book) => {
                self.go(Step::Record);
                self.memory.unfolds_book = true;
                self.memory.keyboard_to = Some(KeyboardTo::BookFolder);
                text!("type-the-folder-of-the-book")
            }
            dialog::Answer::Photos(paths) => {
                self.open_all(paths);
                return;
            }
            dialog::Answer::File(Purpose::Open, path) => {
                self.open_all(vec![path]);
                return;
            }
            dialog::Answer::File(Purpose::Save(file), path) => {
                let folder = path.parent().map(Path::to_owned);
                self.session
                    .prefer(|preferences| preferences.save_folder = folder);
                let command = file.saving(path, &self.memory);
                self.session.apply(command);
                return;
            }
            dialog::Answer::Nothing => return,
            dialog::Answer::NoDialog(Purpose::Open) => {
                self.go(Step::Photo);
                self.memory.keyboard_to = Some(KeyboardTo::Path);
                text!("type-the-photos-path-in-step")
            }
            dialog::Answer::NoDialog(Purpose::Save(file)) => {
                self.go(Step::Record);
                match file {
                    File::Findings(_) => self.memory.unfolds_folder = true,
                    File::Book(_) => self.memory.unfolds_book_folder = true,
                }
                text!("type-the-folder-in-step-5")
            }
        };
        self.session.notify(
            Tone::Trouble,
            text!("no-file-dialog-appeared-on-this", instead = instead),
        );
    }

    fn views(&mut self, ui: &mut Ui, out: &mut Vec<Wish>) {
        let Self {
            session, memory, ..
        } = self;
        let palette = theme::palette(ui);
        let window = ui.available_width();
        let side = |(least, most, share): (f32, f32, f32)| (window * share).clamp(least, most);
        let foot = Panel::left("steps")
            .exact_size(side(RAIL))
            .resizable(false)
            .frame(Frame::NONE.fill(palette.rail))
            .show(ui, |ui| rail::show(ui, session, memory, out))
            .inner;
        let record = session.record();
        let has_views =
            memory.step == Step::Record && (record.book().is_some() || record.is_comparing());
        let view = if has_views { memory.view } else { View::Photo };
        let has_findings = !matches!(view, View::Book | View::Walks);
        let is_narrow = window < NARROW;
        if has_findings && is_narrow {
            narrow(ui, memory.shows_findings, out);
        } else if has_findings {
            Panel::right("findings")
                .exact_size(side(FINDINGS))
                .resizable(false)
                .frame(Frame::NONE.fill(palette.panel))
                .show(ui, |ui| findings::show(ui, session, out));
        }
        guide::show(ui, session, memory, out);
        filmstrip::show(ui, session, memory, out);
        let mut commands = Vec::new();
        if has_views {
            record::choice(ui, memory, out);
        }
        let middle = if has_findings && is_narrow && memory.shows_findings {
            // There is room for one of the two.
            CentralPanel::default()
                .frame(Frame::NONE.fill(palette.panel))
                .show(ui, |ui| {
                    let middle = ui.max_rect();
                    findings::show(ui, session, out);
                    middle
                })
                .inner
        } else if view == View::Photo {
            photo(ui, session, memory, &mut commands, out)
        } else {
            CentralPanel::default()
                .frame(Frame::NONE.fill(palette.panel))
                .show(ui, |ui| {
                    record::show(ui, session, memory, out);
                    ui.max_rect()
                })
                .inner
        };
        notices::show(ui, middle, view == View::Photo, session, &mut commands);
        // Shown after everything else, so that it comes last on the way of the Tab key.
        rail::foot(ui, foot, session, out);
        sheets::show(ui.ctx(), session, memory, out);
        theme::focus_ring(ui, canvas::id());
        out.extend(commands.into_iter().map(Wish::Do));
    }
}

/// The strip at the right of a narrow window that shows and hides the findings.
fn narrow(ui: &mut Ui, shows: bool, out: &mut Vec<Wish>) {
    Panel::right("findings or not")
        .exact_size(46.0)
        .resizable(false)
        .frame(
            Frame::NONE
                .fill(theme::palette(ui).rail)
                .inner_margin(Margin::symmetric(4, 8)),
        )
        .show(ui, |ui| {
            let (text, name) = if shows {
                ("→", text!("hide-the-findings"))
            } else {
                ("←", text!("show-the-findings"))
            };
            let button = ui.add(egui::Button::new(text));
            button.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, name));
            if button.on_hover_text(name).clicked() {
                out.push(Wish::ShowFindings(!shows));
            }
        });
}

/// The photo in the middle, with what is drawn on it and its bar; gives back its place.
fn photo(
    ui: &mut Ui,
    session: &Session,
    memory: &mut Memory,
    commands: &mut Vec<Command>,
    out: &mut Vec<Wish>,
) -> egui::Rect {
    let palette = theme::palette(ui);
    let strip = |fill| {
        Frame::NONE
            .fill(fill)
            .inner_margin(Margin::symmetric(theme::MARGIN, 6))
    };
    Panel::bottom("canvas bar")
        .frame(strip(palette.panel))
        .resizable(false)
        .show(ui, |ui| memory.canvas.bar(ui, session, memory.step));
    if let Some(told) = session.straightened() {
        Panel::top("straightened")
            .frame(strip(palette.accent_soft))
            .resizable(false)
            .show(ui, |ui| straightened(ui, &told, commands));
    }
    CentralPanel::default()
        .frame(Frame::NONE.fill(palette.canvas))
        .show(ui, |ui| {
            if let (Some(photo), Some(overview)) =
                (session.document().picture(), session.overview())
            {
                memory
                    .canvas
                    .show(ui, session, memory.step, photo, overview, commands);
            } else {
                steps::photo::empty(ui, session, out);
            }
            notices::drop_hint(ui);
            ui.max_rect()
        })
        .inner
}

/// The line over a straightened picture, with the way back.
fn straightened(ui: &mut Ui, told: &str, out: &mut Vec<Command>) {
    ui.horizontal_wrapped(|ui| {
        ui.label(told);
        let back = ui.add(theme::small_button(text!("show-photo-as-taken")));
        if back
            .on_hover_text(text!("shows-the-photo-with-its-tilt"))
            .clicked()
        {
            out.push(Command::EndAct);
            out.push(Command::ShowAsTaken);
        }
    });
}

impl eframe::App for App {
    fn on_exit(&mut self, _gl: Option<&eframe::glow::Context>) {
        if let Some(size) = self.memory.window_size {
            self.session
                .prefer(|preferences| preferences.window = Some(size));
        }
    }

    fn logic(&mut self, ctx: &Context, _frame: &mut eframe::Frame) {
        self.catch_up(ctx);
    }

    fn ui(&mut self, ui: &mut Ui, _frame: &mut eframe::Frame) {
        let mut wishes = Vec::new();
        if keys::begins_an_act(ui.ctx()) {
            wishes.push(Wish::Do(Command::EndAct));
        }
        let ends_an_act = ui.input(|i| i.pointer.any_released());
        if self.memory.sheet.is_none() {
            let Memory { canvas, step, .. } = &mut self.memory;
            keys::wishes(ui.ctx(), &self.session, canvas, *step, &mut wishes);
            keys::keep_space_for_the_photo(ui.ctx(), &mut self.memory.canvas);
        }
        self.views(ui, &mut wishes);
        if ends_an_act {
            wishes.push(Wish::Do(Command::EndAct));
        }
        if !wishes.is_empty() {
            ui.ctx().request_repaint();
        }
        for wish in wishes {
            self.grant(ui.ctx(), wish);
        }
    }
}
