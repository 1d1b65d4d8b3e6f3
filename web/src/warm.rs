//! A browser compiles a program twice: at once and roughly, and again and well what runs often. So what every edit runs is
//! run some hundred times, with pauses, after the page has come up; the first edit is then as fast as the hundredth.

use std::time::Duration;

use leptos::prelude::*;
use project::{Edit, History};
use units::Millimetres;

use crate::editor::Editor;

/// How often.
const TURNS: u32 = 300;
/// The pause before each.
const PAUSE: Duration = Duration::from_millis(6);
/// How often a page that nobody sees looks whether it is seen again.
const AWAY: Duration = Duration::from_secs(2);

/// How much deeper and shallower in turn the rehearsed cabinet is, mm.
const DEEPER: f64 = 25.4;

/// Runs it, and marks the end for `cargo xtask bench`.
pub(crate) fn up(editor: Editor) {
    turn(editor, History::default(), TURNS);
}

fn turn(editor: Editor, mut history: History, left: u32) {
    if left == 0 {
        // Without the mark only the bench misses something.
        let _ = window().performance().map(|performance| performance.mark("baywright:warm"));
        return;
    }
    // A page that lies in the background leaves the machine to what is in front of it.
    if document().hidden() {
        set_timeout(move || turn(editor, history, left), AWAY);
        return;
    }
    let run = move || {
        let depth = editor.project_now().build.depth.0;
        let by = if left.is_multiple_of(2) { DEEPER } else { -DEEPER };
        editor.rehearse(&Edit::SetDepth(Millimetres(depth + by)), &mut history);
        turn(editor, history, left - 1);
    };
    set_timeout(run, PAUSE);
}
