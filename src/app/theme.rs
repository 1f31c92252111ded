//! Fonts, sizes and colours: the only place that names a colour.

use egui::style::{Selection, WidgetVisuals};
use egui::{
    Color32, Context, CornerRadius, FontData, FontDefinitions, FontFamily, FontId, RichText,
    Stroke, TextStyle, Theme, Ui, Vec2, Visuals,
};
use std::sync::Arc;

/// Padding inside panels, points.
pub(crate) const MARGIN: i8 = 14;
/// Rounding of everything with corners, points.
pub(crate) const CORNER: u8 = 5;
/// Height of what can be pressed, points.
pub(crate) const PRESS_HEIGHT: f32 = 30.0;

/// The same where it is seldom wanted.
const SMALL_PRESS_HEIGHT: f32 = 26.0;

/// Large text: the handbook's phrase.
pub(crate) const PHRASE: f32 = 25.0;
/// Small text.
pub(crate) const SMALL: f32 = 12.5;

/// Colours of the window, once for light and once for dark.
pub(crate) struct Palette {
    /// Behind findings and messages.
    pub(crate) panel: Color32,
    /// Behind the steps.
    pub(crate) rail: Color32,
    /// Behind the photo.
    pub(crate) canvas: Color32,
    /// Behind what can be typed into.
    pub(crate) field: Color32,
    /// Behind what can be pressed.
    pub(crate) button: Color32,
    /// The same under the pointer.
    pub(crate) button_hovered: Color32,
    /// Edges and separators.
    pub(crate) line: Color32,
    /// Text.
    pub(crate) text: Color32,
    /// Text of less weight.
    pub(crate) quiet: Color32,
    /// What to press next, and what is selected.
    pub(crate) accent: Color32,
    /// Text on the accent.
    pub(crate) on_accent: Color32,
    /// A breath of the accent, behind what is selected.
    pub(crate) accent_soft: Color32,
    /// Cautions.
    pub(crate) caution: Color32,
    /// What went wrong.
    pub(crate) trouble: Color32,
}

const LIGHT: Palette = Palette {
    panel: Color32::from_rgb(0xFA, 0xF8, 0xF3),
    rail: Color32::from_rgb(0xF0, 0xED, 0xE5),
    canvas: Color32::from_rgb(0xCF, 0xCD, 0xC7),
    field: Color32::from_rgb(0xFF, 0xFF, 0xFF),
    button: Color32::from_rgb(0xE3, 0xDF, 0xD5),
    button_hovered: Color32::from_rgb(0xD8, 0xD3, 0xC6),
    line: Color32::from_rgb(0xB9, 0xB5, 0xA9),
    text: Color32::from_rgb(0x22, 0x24, 0x20),
    quiet: Color32::from_rgb(0x58, 0x5A, 0x53),
    accent: Color32::from_rgb(0x1E, 0x68, 0x64),
    on_accent: Color32::from_rgb(0xFF, 0xFF, 0xFF),
    accent_soft: Color32::from_rgb(0xDC, 0xE7, 0xE2),
    caution: Color32::from_rgb(0x80, 0x51, 0x00),
    trouble: Color32::from_rgb(0xA0, 0x2A, 0x1E),
};

const DARK: Palette = Palette {
    panel: Color32::from_rgb(0x25, 0x27, 0x24),
    rail: Color32::from_rgb(0x1E, 0x20, 0x1D),
    canvas: Color32::from_rgb(0x12, 0x13, 0x11),
    field: Color32::from_rgb(0x17, 0x18, 0x16),
    button: Color32::from_rgb(0x39, 0x3C, 0x37),
    button_hovered: Color32::from_rgb(0x48, 0x4B, 0x45),
    line: Color32::from_rgb(0x55, 0x58, 0x51),
    text: Color32::from_rgb(0xE9, 0xE7, 0xE0),
    quiet: Color32::from_rgb(0xB0, 0xAF, 0xA6),
    accent: Color32::from_rgb(0x74, 0xC4, 0xB8),
    on_accent: Color32::from_rgb(0x0D, 0x20, 0x1D),
    accent_soft: Color32::from_rgb(0x2B, 0x40, 0x3C),
    caution: Color32::from_rgb(0xE4, 0xB9, 0x63),
    trouble: Color32::from_rgb(0xF3, 0x9A, 0x8B),
};

/// Colours drawn on the photo, from the palette of Okabe & Ito (*Color Universal Design*, 2008),
/// the same as in saved overlays.
pub(crate) mod on_photo {
    use egui::Color32;

    /// Pores that are counted.
    pub(crate) const COUNTED: Color32 = Color32::from_rgb(86, 180, 233);
    /// Pores that are not.
    pub(crate) const UNCOUNTED: Color32 = Color32::from_rgb(213, 94, 0);
    /// What a person corrected.
    pub(crate) const BY_HAND: Color32 = Color32::from_rgb(230, 159, 0);
    /// The scale line.
    pub(crate) const SCALE: Color32 = Color32::from_rgb(240, 228, 66);
    /// The area's edge.
    pub(crate) const AREA: Color32 = Color32::WHITE;
    /// Parts found unusable.
    pub(crate) const UNUSABLE: Color32 = Color32::from_rgb(204, 121, 167);
    /// About a place that was asked for.
    pub(crate) const FRAME: Color32 = Color32::from_rgb(240, 228, 66);
    /// Under every line, so that it is seen on pale and on dark.
    pub(crate) const CASING: Color32 = Color32::from_black_alpha(150);
    /// Over what is not measured.
    pub(crate) const OUTSIDE: Color32 = Color32::from_black_alpha(90);
    /// Behind words.
    pub(crate) const PLATE: Color32 = Color32::from_black_alpha(190);
    /// The photo itself, as it is.
    pub(crate) const UNTINTED: Color32 = Color32::WHITE;
}

/// The palette in use.
pub(crate) fn palette(ui: &Ui) -> &'static Palette {
    if ui.visuals().dark_mode {
        &DARK
    } else {
        &LIGHT
    }
}

/// Installs fonts, sizes and colours for both themes.
pub(crate) fn install(ctx: &Context) {
    ctx.set_fonts(fonts());
    for (theme, palette) in [(Theme::Light, &LIGHT), (Theme::Dark, &DARK)] {
        ctx.set_visuals_of(theme, visuals(theme, palette));
    }
    ctx.options_mut(|options| {
        options.fallback_theme = Theme::Light;
        // The text size is a preference of ours.
        options.zoom_with_keyboard = false;
    });
    ctx.all_styles_mut(|style| {
        style.text_styles = [
            (TextStyle::Small, FontId::proportional(SMALL)),
            (TextStyle::Body, FontId::proportional(14.0)),
            (TextStyle::Button, FontId::proportional(14.0)),
            (TextStyle::Monospace, FontId::proportional(14.0)),
            (TextStyle::Heading, FontId::new(17.0, semibold())),
        ]
        .into();
        style.spacing.item_spacing = Vec2::new(8.0, 7.0);
        style.spacing.button_padding = Vec2::new(11.0, 4.0);
        style.spacing.interact_size = Vec2::new(36.0, PRESS_HEIGHT);
        style.spacing.window_margin = egui::Margin::same(MARGIN);
        style.spacing.tooltip_width = 320.0;
        style.interaction.selectable_labels = false;
    });
}

fn fonts() -> FontDefinitions {
    let mut fonts = FontDefinitions::empty();
    for (name, bytes) in [
        (
            "Inter",
            &include_bytes!("../../assets/fonts/Inter-Regular.otf")[..],
        ),
        (
            "Inter SemiBold",
            &include_bytes!("../../assets/fonts/Inter-SemiBold.otf")[..],
        ),
    ] {
        fonts
            .font_data
            .insert(name.to_owned(), Arc::new(FontData::from_static(bytes)));
    }
    for (family, name) in [
        (FontFamily::Proportional, "Inter"),
        (FontFamily::Monospace, "Inter"),
        (semibold(), "Inter SemiBold"),
    ] {
        fonts.families.insert(family, vec![name.to_owned()]);
    }
    fonts
}

/// The family of heavier letters.
pub(crate) fn semibold() -> FontFamily {
    FontFamily::Name("semibold".into())
}

/// Text in heavier letters.
pub(crate) fn bold(text: impl Into<String>) -> RichText {
    RichText::new(text).family(semibold())
}

/// Small text of less weight.
pub(crate) fn quiet(ui: &Ui, text: impl Into<String>) -> RichText {
    RichText::new(text).size(SMALL).color(palette(ui).quiet)
}

/// A button for what to do next.
pub(crate) fn primary_button<'a>(ui: &Ui, text: &str) -> egui::Button<'a> {
    let palette = palette(ui);
    egui::Button::new(bold(text).color(palette.on_accent)).fill(palette.accent)
}

/// Turns while something is under way, unless nothing is to move by itself; words beside it say what.
pub(crate) fn working(ui: &mut Ui) {
    if ui.style().animation_time > 0.0 {
        ui.add(egui::Spinner::new().size(16.0));
    }
}

/// A field for a path: as high as the path is long, so that all of it is seen.
pub(crate) fn path_field(path: &mut String) -> egui::TextEdit<'_> {
    egui::TextEdit::multiline(path)
        .return_key(None)
        .desired_rows(1)
        .desired_width(f32::INFINITY)
        .min_size(Vec2::new(0.0, PRESS_HEIGHT))
        .align(egui::Align2::LEFT_CENTER)
}

/// A small button for what is seldom wanted.
pub(crate) fn small_button<'a>(text: &str) -> egui::Button<'a> {
    egui::Button::new(RichText::new(text).size(SMALL)).min_size(Vec2::new(0.0, SMALL_PRESS_HEIGHT))
}

/// Frames what the keyboard has hold of. Two tones, so that it shows on a control of any colour
/// and on any photo.
pub(crate) fn focus_ring(ui: &Ui, but_not: egui::Id) {
    let ctx = ui.ctx();
    if let Some(id) = ctx.memory(egui::Memory::focused)
        && id != but_not
        && let Some(response) = ctx.read_response(id)
    {
        let palette = palette(ui);
        let rect = response
            .interact_rect
            .expand(2.0)
            .intersect(ctx.content_rect().shrink(2.0));
        let painter = ctx.layer_painter(response.layer_id);
        for (width, colour) in [(4.5, palette.panel), (2.0, palette.text)] {
            painter.rect_stroke(
                rect,
                CORNER + 2,
                Stroke::new(width, colour),
                egui::StrokeKind::Middle,
            );
        }
    }
}

/// Scrolls to the control that has just been given the keyboard, if it is one of these.
pub(crate) fn follow_focus(ui: &Ui) {
    let ctx = ui.ctx();
    if let Some(id) = ctx.memory(egui::Memory::focused)
        && let Some(response) = ctx.read_response(id)
        && response.gained_focus()
        && response.layer_id == ui.layer_id()
        && ui.min_rect().contains_rect(response.rect)
    {
        ui.scroll_to_rect(response.rect.expand(12.0), None);
    }
}

fn visuals(theme: Theme, palette: &Palette) -> Visuals {
    let mut visuals = match theme {
        Theme::Light => Visuals::light(),
        Theme::Dark => Visuals::dark(),
    };
    let widget = |fill: Color32, edge: Color32, text: Color32| WidgetVisuals {
        bg_fill: fill,
        weak_bg_fill: fill,
        bg_stroke: Stroke::new(1.0, edge),
        corner_radius: CornerRadius::same(CORNER),
        fg_stroke: Stroke::new(1.0, text),
        expansion: 0.0,
    };
    visuals.widgets.noninteractive = widget(palette.panel, palette.line, palette.text);
    visuals.widgets.inactive = widget(palette.button, palette.line, palette.text);
    visuals.widgets.hovered = widget(palette.button_hovered, palette.accent, palette.text);
    visuals.widgets.active = widget(palette.button_hovered, palette.accent, palette.text);
    visuals.widgets.active.bg_stroke.width = 2.0;
    visuals.widgets.open = widget(palette.button, palette.line, palette.text);
    visuals.selection = Selection {
        bg_fill: palette.accent_soft,
        stroke: Stroke::new(1.5, palette.accent),
    };
    visuals.panel_fill = palette.panel;
    visuals.window_fill = palette.panel;
    visuals.window_stroke = Stroke::new(1.0, palette.line);
    visuals.extreme_bg_color = palette.field;
    visuals.faint_bg_color = palette.rail;
    visuals.hyperlink_color = palette.accent;
    visuals.warn_fg_color = palette.caution;
    visuals.error_fg_color = palette.trouble;
    visuals.weak_text_color = Some(palette.quiet);
    visuals.window_corner_radius = CornerRadius::same(CORNER);
    visuals.menu_corner_radius = CornerRadius::same(CORNER);
    visuals
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Relative luminance, WCAG 2.2.
    fn luminance(colour: Color32) -> f64 {
        let channel = |c: u8| {
            let c = f64::from(c) / 255.0;
            if c <= 0.04045 {
                c / 12.92
            } else {
                ((c + 0.055) / 1.055).powf(2.4)
            }
        };
        0.2126 * channel(colour.r()) + 0.7152 * channel(colour.g()) + 0.0722 * channel(colour.b())
    }

    fn contrast(a: Color32, b: Color32) -> f64 {
        let (a, b) = (luminance(a), luminance(b));
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    #[test]
    fn what_is_under_way_turns_only_where_things_may_move() {
        let comes_to_rest = |animation_time| {
            let mut harness = egui_kittest::Harness::new_ui(move |ui| {
                ui.style_mut().animation_time = animation_time;
                working(ui);
            });
            harness.try_run().is_ok()
        };
        assert!(comes_to_rest(0.0));
        assert!(!comes_to_rest(0.1));
    }

    #[test]
    fn every_text_stands_out_from_what_is_behind_it() {
        for palette in [&LIGHT, &DARK] {
            for text in [
                palette.text,
                palette.quiet,
                palette.caution,
                palette.trouble,
            ] {
                for behind in [
                    palette.panel,
                    palette.rail,
                    palette.field,
                    palette.accent_soft,
                ] {
                    // WCAG 2.2, success criterion 1.4.3.
                    assert!(contrast(text, behind) >= 4.5, "{text:?} on {behind:?}");
                }
            }
            assert!(contrast(palette.on_accent, palette.accent) >= 4.5);
            assert!(contrast(palette.text, palette.button_hovered) >= 4.5);
            assert!(contrast(palette.text, palette.canvas) >= 4.5);
            // Parts of controls: criterion 1.4.11.
            assert!(contrast(palette.accent, palette.rail) >= 3.0);
        }
    }
}
