//! What could not be opened or kept, told in full: place, what was found, what is allowed, what was kept.

use leptos::prelude::*;
use rules::Outcome;

use crate::lean::view;
use crate::parts::Stamp;

/// How many problems are listed before the rest is only counted.
const LISTED: usize = 8;

/// What could not be done.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Told {
    head: String,
    lines: Vec<String>,
    after: &'static str,
    outcome: Outcome,
}

impl Told {
    /// Something was not opened; all its problems.
    pub(crate) fn refused(what: &str, lines: Vec<String>) -> Self {
        Self {
            head: format!("{what} was not opened"),
            lines,
            after: "What you had is still here, untouched.",
            outcome: Outcome::Fails,
        }
    }

    /// The browser's store did not take the project.
    pub(crate) fn unkept() -> Self {
        Self {
            head: "Not kept on this machine".to_owned(),
            lines: Vec::new(),
            after: "The browser’s store is full or forbidden. Save the project to a file before you leave.",
            outcome: Outcome::Tight,
        }
    }

    /// Something is in use now.
    pub(crate) fn taken(what: String, after: &'static str) -> Self {
        Self { head: what, lines: Vec::new(), after, outcome: Outcome::Holds }
    }

    /// The same with these lines.
    pub(crate) fn with(self, lines: Vec<String>) -> Self {
        Self { lines, ..self }
    }
}

/// The message, until it is put away.
#[component]
pub(crate) fn ToldView(
    /// What is told.
    told: Told,
    /// Puts it away.
    #[prop(into)]
    on_close: Callback<()>,
) -> impl IntoView {
    let more = told.lines.len().saturating_sub(LISTED);
    let lines = told.lines.into_iter().take(LISTED).map(|line| view! { <li>{line}</li> }).collect_view();
    view! {
        <div class="message message--told" role="alert">
            <Stamp outcome=told.outcome size=26 />
            <div>
                <p class="message__head">{told.head}</p>
                <ul>{lines}</ul>
                {(more > 0).then(|| view! { <p>{format!("and {more} more")}</p> })}
                <p>{told.after}</p>
            </div>
            <button type="button" class="blank" on:click=move |_| on_close.run(())>"Put away"</button>
        </div>
    }
}
