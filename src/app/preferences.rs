//! What a person likes: the sheet on which it is chosen, and how it takes effect.

use super::sheets::Answer;
use super::theme::{self, palette};
use super::{Memory, Wish};
use crate::session::{Colours, Preferences, Session, TextSize, WindowSize};
use crate::wording::{self, Language, text};
use egui::{Button, Context, Grid, Label, Response, ThemePreference, Ui, style::ScrollAnimation};

/// How long the window takes to change where it may, seconds.
const MOTION: f32 = 0.1;

/// Makes the window look as is preferred, where that has changed.
pub(crate) fn follow(ctx: &Context, session: &mut Session, memory: &mut Memory) {
    let preferences = session.preferences();
    if memory.looks_as.as_ref() == Some(preferences) {
        return;
    }
    let preferences = preferences.clone();
    session.speak(preferences.language.unwrap_or(memory.system_language));
    ctx.set_zoom_factor(preferences.text_size.multiple());
    ctx.set_theme(match preferences.colours {
        Colours::System => ThemePreference::System,
        Colours::Light => ThemePreference::Light,
        Colours::Dark => ThemePreference::Dark,
    });
    let is_still = preferences.reduced_motion;
    ctx.all_styles_mut(|style| {
        style.animation_time = if is_still { 0.0 } else { MOTION };
        style.scroll_animation = if is_still {
            ScrollAnimation::none()
        } else {
            ScrollAnimation::default()
        };
        style.visuals.text_cursor.blink = !is_still;
    });
    memory.looks_as = Some(preferences);
}

/// How large the window is now, to be remembered.
pub(crate) fn window_size(ctx: &Context) -> Option<WindowSize> {
    let zoom = ctx.zoom_factor();
    ctx.input(|input| {
        let viewport = input.viewport();
        let inner = viewport.inner_rect?;
        Some(WindowSize {
            size: [inner.width() * zoom, inner.height() * zoom],
            is_maximised: viewport.maximized.unwrap_or(false),
        })
    })
}

/// The sheet; gives back what gets the keyboard.
pub(crate) fn show(ui: &mut Ui, session: &Session, out: &mut Vec<Wish>) -> Response {
    let preferences = session.preferences();
    ui.heading(text!("preferences"));
    let mut changed = preferences.clone();
    Grid::new("preferences")
        .num_columns(2)
        .spacing([24.0, 12.0])
        .min_row_height(theme::PRESS_HEIGHT)
        .show(ui, |ui| {
            ui.label(text!("text-size"));
            text_size(ui, preferences, &mut changed);
            ui.end_row();
            ui.label(text!("language"));
            ui.horizontal_wrapped(|ui| {
                ui.radio_value(&mut changed.language, None, text!("as-the-system-speaks"));
                for language in Language::ALL {
                    ui.radio_value(&mut changed.language, Some(language), language.name());
                }
            });
            ui.end_row();
            ui.label(text!("colours"));
            ui.horizontal_wrapped(|ui| {
                for colours in Colours::ALL {
                    ui.radio_value(&mut changed.colours, colours, colours.name());
                }
            });
            ui.end_row();
            ui.label(text!("movement"));
            ui.checkbox(
                &mut changed.reduced_motion,
                text!("nothing-moves-by-itself"),
            );
            ui.end_row();
        });
    if changed != *preferences {
        out.push(Wish::Prefer(Box::new(changed)));
    }
    ui.add(Label::new(theme::quiet(ui, text!("kept-from-one-start-to-the"))).wrap());
    ui.add_space(4.0);
    let close = ui.add(theme::primary_button(ui, text!("close")));
    if close.clicked() {
        out.push(Wish::Answer(Answer::Cancel));
    }
    close
}

fn text_size(ui: &mut Ui, preferences: &Preferences, changed: &mut Preferences) {
    let now = preferences.text_size.per_cent();
    let [least, most] = TextSize::RANGE;
    ui.horizontal(|ui| {
        for (text, act, is_larger, can) in [
            ("A−", "do-smaller-text", false, now > least),
            ("A+", "do-larger-text", true, now < most),
        ] {
            let name = wording::said(act);
            let button = ui.add_enabled(can, Button::new(text));
            button.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, can, name));
            let keys = super::actions::keys_of(ui.ctx(), act);
            if button.on_hover_text(format!("{name} ({keys})")).clicked() {
                *changed = preferences.resized(is_larger);
            }
        }
        let told = egui::RichText::new(format!("{now} %")).color(palette(ui).text);
        ui.label(told);
    });
}
