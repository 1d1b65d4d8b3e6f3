//! A browser compiles a program twice: at once and roughly, and again and well what runs often. So what every edit runs is
//! run a few dozen times, with pauses, after the page has come up; the first edit is then as fast as the hundredth.

use std::time::Duration;

use leptos::prelude::*;

use crate::editor::Editor;

/// How often.
const TURNS: u32 = 100;
/// The pause before each.
const PAUSE: Duration = Duration::from_millis(16);
/// How often a page that nobody sees looks whether it is seen again.
const AWAY: Duration = Duration::from_secs(2);

/// Runs it, and marks the end for `cargo xtask bench`.
pub(crate) fn up(editor: Editor) {
    turn(editor, TURNS);
}

fn turn(editor: Editor, left: u32) {
    if left == 0 {
        // Without the mark only the bench misses something.
        let _ = window().performance().map(|performance| performance.mark("baywright:warm"));
        return;
    }
    // A page that lies in the background leaves the machine to what is in front of it.
    if document().hidden() {
        set_timeout(move || turn(editor, left), AWAY);
        return;
    }
    let run = move || {
        // Whether the page shows anything of it does not matter: nobody is told.
        drop(editor.derived_anew());
        turn(editor, left - 1);
    };
    set_timeout(run, PAUSE);
}
