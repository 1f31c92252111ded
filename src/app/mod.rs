//! The window: shows what a [`Session`] holds and sends it commands.
//!
//! Nothing here measures, and nothing changes the document while it is painted: views push
//! commands, which are applied once the frame is done.

mod canvas;
mod dialog;
mod findings;
mod notices;
mod rail;
mod steps;
mod theme;

use crate::session::{Command, Export, Session, Step, Tone, Wake, Work, file_name};
use canvas::Canvas;
use dialog::{Answer, Dialog, Purpose};
use egui::{CentralPanel, Context, Frame, Key, KeyboardShortcut, Margin, Modifiers, Panel, Ui};
use std::fmt;
use std::path::PathBuf;
use std::sync::Arc;

/// Width of the steps: least, most, and share of the window's; points.
const RAIL: (f32, f32, f32) = (248.0, 284.0, 0.222);
/// Width of the findings, likewise.
const FINDINGS: (f32, f32, f32) = (292.0, 328.0, 0.257);

const OPEN: KeyboardShortcut = KeyboardShortcut::new(Modifiers::COMMAND, Key::O);
const MEASURE: KeyboardShortcut = KeyboardShortcut::new(Modifiers::COMMAND, Key::M);
const SAVE: KeyboardShortcut = KeyboardShortcut::new(Modifiers::COMMAND, Key::S);
const STEP_KEYS: [Key; 5] = [Key::Num1, Key::Num2, Key::Num3, Key::Num4, Key::Num5];

/// Why there is no window.
#[derive(Debug, thiserror::Error)]
#[error(
    "the window could not be opened ({0}). `poreline measure PHOTO` measures without one; \
     `poreline measure --help` tells how"
)]
pub struct WindowError(#[from] eframe::Error);

/// Opens the window, with the first of the photos in it, and comes back when it is closed.
///
/// # Errors
/// [`WindowError`] when the system shows no window.
pub fn run(photos: Vec<PathBuf>) -> Result<(), WindowError> {
    let mut viewport = egui::ViewportBuilder::default()
        .with_app_id("poreline")
        .with_title("Poreline")
        .with_inner_size([1280.0, 800.0])
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
        Box::new(|creation| Ok(Box::new(App::new(&creation.egui_ctx, photos)?))),
    )?;
    Ok(())
}

/// What the window remembers that is no part of the document: what is open, what is half typed.
struct Memory {
    step: Step,
    canvas: Canvas,
    /// A photo's path being typed.
    path: String,
    /// A folder to save in, being typed.
    folder: String,
    /// Whether the system turned out to have no file dialogs.
    no_dialogs: bool,
    /// The dialog that is open.
    dialog: Option<Dialog>,
    /// A file that would be replaced, once the person agrees.
    replace: Option<(Export, PathBuf)>,
}

/// What a view wants done: to the document, or to the window.
enum Wish {
    /// A command for the session.
    Do(Command),
    /// Show a step.
    Go(Step),
    /// Ask for a photo.
    AskOpen,
    /// Ask where to save.
    AskSave(Export),
    /// Save in the folder typed in, after asking where a file would be replaced.
    SaveInFolder(Export),
    /// The person agreed, or did not, that a file be replaced.
    Replace(bool),
    /// Follow the system's colours, or light, or dark.
    Appear(egui::ThemePreference),
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
    /// The contents, opening the first of the photos.
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
                no_dialogs: false,
                dialog: None,
                replace: None,
            },
            title: String::new(),
        };
        app.open_first(photos);
        Ok(app)
    }

    /// What the window shows, for tests.
    #[must_use]
    pub const fn session(&self) -> &Session {
        &self.session
    }

    fn open_first(&mut self, photos: Vec<PathBuf>) {
        let mut photos = photos.into_iter();
        if let Some(first) = photos.next() {
            self.session.apply(Command::Open(first));
        }
        let others: Vec<String> = photos.map(|path| file_name(&path)).collect();
        if !others.is_empty() {
            self.session.notify(
                Tone::Trouble,
                format!(
                    "The window holds one photo at a time. Not opened: {}. \
                     `poreline measure` takes as many as you like",
                    others.join(", ")
                ),
            );
        }
    }

    /// Everything that happened since the last frame, the person's doings in the window excepted.
    fn catch_up(&mut self, ctx: &Context) {
        let before = self.session.document().photo.clone();
        let was_measuring = matches!(self.session.work(), Work::Measuring(_));
        self.session.poll();
        let photo = self.session.document().photo.clone();
        let changed = match (&before, &photo) {
            (Some(before), Some(now)) => !Arc::ptr_eq(before, now),
            (None, Some(_)) => true,
            _ => false,
        };
        if let Some(photo) = photo.filter(|_| changed) {
            self.memory.canvas.reset();
            self.memory.step = Step::Scale;
            self.memory.folder = photo
                .path
                .parent()
                .filter(|folder| !folder.as_os_str().is_empty())
                .map_or_else(|| ".".to_owned(), |folder| folder.display().to_string());
        }
        if was_measuring && *self.session.work() == Work::Idle && self.session.results().is_some() {
            self.memory.step = Step::Pores;
        }
        let dropped = ctx.input_mut(|i| std::mem::take(&mut i.raw.dropped_files));
        self.open_first(
            dropped
                .into_iter()
                .map(|file| file.path().to_owned())
                .collect(),
        );
        if let Some(answer) = self.memory.dialog.as_ref().and_then(Dialog::answer) {
            self.memory.dialog = None;
            match answer {
                Answer::File(Purpose::Open, path) => self.session.apply(Command::Open(path)),
                Answer::File(Purpose::Save(export), path) => {
                    self.session.apply(Command::Save(export, path));
                }
                Answer::Nothing => {}
                Answer::NoDialog(purpose) => {
                    self.memory.no_dialogs = true;
                    let instead = match purpose {
                        Purpose::Open => "Type the photo's path on the left instead",
                        Purpose::Save(_) => "Type the folder on the left instead",
                    };
                    self.session.notify(
                        Tone::Trouble,
                        format!("No file dialog appeared on this system. {instead}"),
                    );
                }
            }
        }
        let title = self.session.title();
        if title != self.title {
            ctx.send_viewport_cmd(egui::ViewportCommand::Title(title.clone()));
            self.title = title;
        }
    }

    fn grant(&mut self, ctx: &Context, wish: Wish) {
        let waker = ctx.clone();
        let wake = move || waker.request_repaint();
        match wish {
            Wish::Do(command) => self.session.apply(command),
            Wish::Go(step) => self.memory.step = step,
            Wish::AskOpen if self.memory.dialog.is_none() => {
                self.memory.step = Step::Photo;
                self.memory.dialog = Some(Dialog::open(wake));
            }
            Wish::AskSave(export) if self.memory.dialog.is_none() => {
                if let Some(photo) = &self.session.document().photo {
                    self.memory.dialog = Some(Dialog::save(export, &photo.path, wake));
                }
            }
            Wish::AskOpen | Wish::AskSave(_) => {}
            Wish::SaveInFolder(export) => {
                if let Some(photo) = &self.session.document().photo {
                    let path = PathBuf::from(self.memory.folder.trim())
                        .join(export.file_name(&photo.path));
                    if path.exists() {
                        self.memory.replace = Some((export, path));
                    } else {
                        self.session.apply(Command::Save(export, path));
                    }
                }
            }
            Wish::Replace(agreed) => {
                if let Some((export, path)) = self.memory.replace.take().filter(|_| agreed) {
                    self.session.apply(Command::Save(export, path));
                }
            }
            Wish::Appear(preference) => ctx.set_theme(preference),
        }
    }

    fn shortcuts(&self, ctx: &Context, out: &mut Vec<Wish>) {
        if self.memory.replace.is_some() {
            return;
        }
        ctx.input_mut(|input| {
            if input.consume_shortcut(&OPEN) {
                out.push(Wish::AskOpen);
            }
            if input.consume_shortcut(&MEASURE) && self.session.why_not_measure().is_none() {
                out.push(Wish::Do(Command::Measure));
            }
            if input.consume_shortcut(&SAVE) && self.session.why_not_save().is_none() {
                out.push(Wish::AskSave(Export::Findings));
            }
            for (step, key) in Step::ALL.into_iter().zip(STEP_KEYS) {
                if input.consume_key(Modifiers::COMMAND, key) {
                    out.push(Wish::Go(step));
                }
            }
        });
    }

    fn views(&mut self, ui: &mut Ui, out: &mut Vec<Wish>) {
        let Self {
            session, memory, ..
        } = self;
        let palette = theme::palette(ui);
        let frame = |fill| {
            Frame::NONE
                .fill(fill)
                .inner_margin(Margin::same(theme::MARGIN))
        };
        let window = ui.available_width();
        let side = |(least, most, share): (f32, f32, f32)| (window * share).clamp(least, most);
        Panel::left("steps")
            .exact_size(side(RAIL))
            .resizable(false)
            .frame(Frame::NONE.fill(palette.rail))
            .show(ui, |ui| rail::show(ui, session, memory, out));
        Panel::right("findings")
            .exact_size(side(FINDINGS))
            .resizable(false)
            .frame(Frame::NONE.fill(palette.panel))
            .show(ui, |ui| findings::show(ui, session));
        let mut commands = Vec::new();
        if !session.notices().is_empty() {
            Panel::top("notices")
                .frame(frame(palette.panel))
                .resizable(false)
                .show(ui, |ui| notices::show(ui, session, &mut commands));
        }
        Panel::bottom("canvas bar")
            .frame(
                Frame::NONE
                    .fill(palette.panel)
                    .inner_margin(Margin::symmetric(theme::MARGIN, 6)),
            )
            .resizable(false)
            .show(ui, |ui| memory.canvas.bar(ui, session, memory.step));
        CentralPanel::default()
            .frame(Frame::NONE.fill(palette.canvas))
            .show(ui, |ui| {
                if let (Some(photo), Some(overview)) =
                    (&session.document().photo, session.overview())
                {
                    memory
                        .canvas
                        .show(ui, session, memory.step, photo, overview, &mut commands);
                } else {
                    steps::photo::empty(ui, session, out);
                }
                notices::drop_hint(ui);
            });
        if let Some((_, path)) = &memory.replace {
            notices::ask_replace(ui.ctx(), path, out);
        }
        out.extend(commands.into_iter().map(Wish::Do));
    }
}

impl eframe::App for App {
    fn logic(&mut self, ctx: &Context, _frame: &mut eframe::Frame) {
        self.catch_up(ctx);
    }

    fn ui(&mut self, ui: &mut Ui, _frame: &mut eframe::Frame) {
        let mut wishes = Vec::new();
        self.shortcuts(ui.ctx(), &mut wishes);
        self.views(ui, &mut wishes);
        if !wishes.is_empty() {
            ui.ctx().request_repaint();
        }
        for wish in wishes {
            self.grant(ui.ctx(), wish);
        }
    }
}
