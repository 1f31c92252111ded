//! How the photo is shown: turned, brighter, with a loupe, half without outlines. Nothing of this is
//! measured or saved.

use super::view::View;
use crate::app::theme;
use crate::session::Toning;
use crate::wording::text;
use egui::{Button, Popup, PopupCloseBehavior, Slider, Ui};

/// How far a button or key turns the photo, degrees.
pub(super) const QUARTER: f64 = 90.0;

/// A change of how the photo is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Look {
    /// All of it.
    Fit,
    /// A quarter turn with the clock.
    TurnRight,
    /// A quarter turn against the clock.
    TurnLeft,
    /// As it lies in its file.
    Upright,
    /// With a loupe where something is set, or no longer.
    Loupe,
    /// With a scale bar in the corner, or no longer.
    ScaleBar,
    /// With outlines, or no longer.
    Outlines,
    /// Half without outlines, or no longer.
    HalfWithout,
}

/// What is chosen.
#[derive(Debug, Clone, Copy)]
pub(super) struct Looks {
    /// Brightness and contrast.
    pub(super) toning: Toning,
    /// Whether a loupe is shown where something is set.
    pub(super) loupe: bool,
    /// Whether the scale bar lies over the photo.
    pub(super) scale_bar: bool,
    /// Where the divider stands, left of which there are no outlines, as a share of the canvas' width.
    pub(super) divider: Option<f32>,
}

impl Default for Looks {
    fn default() -> Self {
        Self {
            toning: Toning::default(),
            loupe: true,
            scale_bar: true,
            divider: None,
        }
    }
}

impl Looks {
    /// The button under which all this is chosen, and its keys.
    pub(super) fn menu(&mut self, ui: &mut Ui, view: &mut View) {
        let button = ui
            .add(Button::new(text!("view")).min_size(egui::vec2(theme::PRESS_HEIGHT, 0.0)))
            .on_hover_text(text!("turn-the-photo-or-show-it"));
        Popup::from_toggle_button_response(&button)
            .close_behavior(PopupCloseBehavior::CloseOnClickOutside)
            .show(|ui| {
                ui.set_width(250.0);
                ui.spacing_mut().item_spacing.y = 8.0;
                ui.label(theme::quiet(ui, text!("for-looking-only-what-is-measured")));
                turn(ui, view);
                ui.separator();
                self.tone(ui);
                ui.separator();
                ui.checkbox(&mut self.loupe, text!("loupe"))
                    .on_hover_text(text!("enlarges-the-place-where-an-end"));
                ui.checkbox(&mut self.scale_bar, text!("scale-bar"))
                    .on_hover_text(text!("a-bar-of-a-round-length"));
            });
    }

    fn tone(&mut self, ui: &mut Ui) {
        let most = Toning::MOST;
        let Toning {
            brightness,
            contrast,
        } = &mut self.toning;
        for (name, value) in [
            (text!("brightness"), brightness),
            (text!("contrast"), contrast),
        ] {
            ui.add(Slider::new(value, -most..=most).text(name));
        }
        if ui
            .add_enabled(
                !self.toning.is_as_taken(),
                Button::new(text!("reset-brightness")),
            )
            .on_hover_text(text!("shows-the-photos-own-brightness-and"))
            .clicked()
        {
            self.toning = Toning::default();
        }
    }

    /// Puts a divider between the photo without outlines and with them, or takes it away.
    pub(super) fn divide(&mut self, is_divided: bool) {
        self.divider = is_divided.then_some(0.5);
    }

    /// Lets a divider be put between the photo without outlines and with them.
    pub(super) fn compare(&mut self, ui: &mut Ui, has_outlines: bool) {
        let mut is_divided = self.divider.is_some();
        let before = is_divided;
        ui.add_enabled(
            has_outlines,
            egui::Checkbox::new(&mut is_divided, text!("half-without")),
        )
        .on_hover_text(text!("shows-the-photo-without-outlines-left"))
        .on_disabled_hover_text(text!("show-the-outlines-first"));
        if is_divided != before {
            self.divide(is_divided);
        }
    }

    /// Says that the photo is shown otherwise than it was taken, with the way back.
    pub(super) fn reminder(&mut self, ui: &mut Ui) {
        if self.toning.is_as_taken() {
            return;
        }
        ui.separator();
        ui.label(theme::quiet(
            ui,
            text!("brightness-changed-for-looking-only"),
        ));
        if ui
            .add(theme::small_button(text!("reset-brightness")))
            .on_hover_text(text!("shows-the-photos-own-brightness-and"))
            .clicked()
        {
            self.toning = Toning::default();
        }
    }
}

fn turn(ui: &mut Ui, view: &mut View) {
    let mut degrees = view.turn_deg();
    ui.horizontal(|ui| {
        for (text, by, meaning) in [
            (
                text!("turn-left"),
                -QUARTER,
                text!("a-quarter-turn-against-the-clock"),
            ),
            (
                text!("turn-right"),
                QUARTER,
                text!("a-quarter-turn-with-the-clock"),
            ),
        ] {
            if ui.button(text).on_hover_text(meaning).clicked() {
                degrees += by;
            }
        }
        if ui
            .add_enabled(degrees != 0.0, Button::new(text!("upright")))
            .on_hover_text(text!("shows-the-photo-as-it-lies"))
            .clicked()
        {
            degrees = 0.0;
        }
    });
    let slider = Slider::new(&mut degrees, -180.0..=180.0)
        .suffix("°")
        .fixed_decimals(0)
        .text(text!("turn"));
    ui.add(slider)
        .on_hover_text(text!("turns-the-photo-on-the-screen"));
    if degrees.to_bits() != view.turn_deg().to_bits() {
        view.turn_to(degrees);
    }
}
