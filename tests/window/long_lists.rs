//! Long lists: words looked for in many rows, and what is out of view.

use eframe::egui::{Context, RawInput, Rect, ScrollArea, pos2, vec2};
use springwright::gui::background::texts::{Search, Texts};
use springwright::gui::widgets::in_view::only;

#[test]
fn finds_what_looking_at_each_row_finds() {
    let rows = ["L-1 Front coil", "", "coil\nrear", "ÄRGER leaf", "coil", "fro", "nt"];
    let texts = Texts::new(rows.iter().map(|r| (*r).to_owned()));
    let typed = |text: &'static str| (0..=text.len()).filter_map(|n| text.get(..n));
    let all = ["coil rear", "CO", "c l", "ront coil", "ärger", "oil  r", "x", "front l-1 coil"];
    let mut search = Search::default();
    let taken_away = typed("front l-1 coil").collect::<Vec<_>>().into_iter().rev();
    for words in all.into_iter().flat_map(typed).chain(taken_away).chain(all) {
        let has = |row: &&str| words.to_lowercase().split_whitespace().all(|w| row.to_lowercase().contains(w));
        assert_eq!(search.rows_with(words, &texts), rows.iter().map(has).collect::<Vec<_>>(), "{words}");
    }
}

/// How often a block below others is drawn in each of these frames, and how high all of it is.
fn frames(ctx: &Context, offsets: &[f32]) -> Vec<(u32, f32)> {
    let frame = |offset: &f32| {
        let mut found = (0, 0.0);
        let window = Rect::from_min_size(pos2(0.0, 0.0), vec2(300.0, 200.0));
        let input = RawInput { screen_rect: Some(window), ..RawInput::default() };
        let mut output = ctx.run_ui(input, |ui| {
            let area = ScrollArea::vertical().vertical_scroll_offset(*offset).show(ui, |ui| {
                ui.add_space(600.0);
                only(ui, "block", |ui| {
                    found.0 += 1;
                    ui.add_space(70.0);
                });
                ui.add_space(600.0);
            });
            found.1 = area.content_size.y;
        });
        output.textures_delta.clear();
        found
    };
    offsets.iter().map(frame).collect()
}

#[test]
fn what_is_out_of_view_keeps_its_room_and_is_not_drawn() {
    let found = frames(&Context::default(), &[0.0, 0.0, 0.0, 500.0, 1000.0]);
    assert_eq!(found.iter().map(|f| f.0).collect::<Vec<_>>(), [1, 0, 0, 1, 0]);
    assert!(found.iter().all(|f| f.1 == found[0].1), "{found:?}");
}

#[test]
fn a_screen_reader_reads_what_is_out_of_view() {
    let ctx = Context::default();
    ctx.enable_accesskit();
    assert!(frames(&ctx, &[0.0, 0.0, 0.0]).iter().all(|f| f.0 == 1));
}
