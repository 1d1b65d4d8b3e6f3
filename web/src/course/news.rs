//! What is to be said of the course while there is none: that it is being worked on, how far, or why there is none.

use leptos::prelude::*;
use units::{Kind, Value, show};

use super::asking::{ask, stop};
use super::state::{CourseState, STOPPED};
use crate::editor::use_editor;
use crate::lean::{Memo, view};
use crate::view_state::use_view;

/// What is said.
#[derive(Clone, Copy, PartialEq)]
enum News {
    Working,
    Stopped,
    Problem,
}

/// One line below the answers, when there is something to say.
#[component]
pub(crate) fn CourseNews() -> impl IntoView {
    let editor = use_editor();
    let units = use_view().units;
    // A run that is over at once leaves the old figures standing meanwhile, and is not worth a line.
    let news = Memo::new(move |_| match editor.course() {
        CourseState::Working { share, old } if share > 0.0 || old.is_none() => Some(News::Working),
        CourseState::Stopped => Some(News::Stopped),
        CourseState::Problem(_) => Some(News::Problem),
        CourseState::None | CourseState::Working { .. } | CourseState::Ready(_) => None,
    });
    let words = move || match editor.course() {
        CourseState::Working { share, .. } => {
            format!("Year: working… {}", show(Value::new(share, Kind::Share), units.get()))
        }
        CourseState::Stopped => STOPPED.to_owned(),
        CourseState::Problem(why) => why,
        CourseState::None | CourseState::Ready(_) => String::new(),
    };
    // A problem is met again by the same project, and there is nothing to press.
    let act = move |news: News| match news {
        News::Working => {
            Some(view! { <button type="button" class="word" on:click=move |_| stop(editor)>"Stop"</button> })
        }
        News::Stopped => {
            Some(view! { <button type="button" class="word" on:click=move |_| ask(editor)>"Ask again"</button> })
        }
        News::Problem => None,
    };
    move || {
        news.get().map(|news| {
            view! { <li class="answers__news"><span>{words}</span>" "{act(news)}</li> }
        })
    }
}
