//! From what a device or climate unit is fed, in its panel, and what else could feed it.

use leptos::prelude::*;
use project::{ChosenFeed, Edit, Fed, ItemId};
use rules::Case;
use rules::network::{Network, NodeKind};
use units::Kind;

use super::things::{flow_words, things};
use crate::bench::{PanelOpened, SideOf};
use crate::build_list::Part;
use crate::editor::{Editor, use_editor};
use crate::lean::{Memo, view};
use crate::parts::{ChoiceBlank, QuantityField, Typed};
use crate::view_state::{ViewState, use_view};

/// How an input is fed.
#[derive(Clone, PartialEq)]
struct Feeding {
    /// What feeds it, in words.
    words: String,
    /// Whether the user may feed it from elsewhere.
    free: bool,
    /// Whether what feeds it counts its positions.
    counted: bool,
    /// What went wrong.
    trouble: Option<&'static str>,
}

fn feeding(editor: Editor, input: Fed) -> Option<Feeding> {
    let (project, catalogue) = (editor.project(), editor.catalogue());
    let case = Case::new(&project, &catalogue);
    let node = case.network.node_of(input)?;
    let things = things(&case);
    let thing = things.get(node)?;
    let names: Vec<_> = thing.from.iter().filter_map(|from| Some(things.get(*from)?.full.as_str())).collect();
    let words = match (names.is_empty(), thing.flows) {
        (true, _) => "nothing".to_owned(),
        (false, Some(flows)) => format!("{}, {}", names.join(" and "), flow_words(flows)),
        (false, None) => names.join(" and "),
    };
    Some(Feeding {
        words,
        free: is_free(thing.kind),
        counted: thing.from.first().is_some_and(|from| things.get(*from).is_some_and(|from| from.protects())),
        trouble: thing.trouble,
    })
}

/// Whether the user may choose what feeds such a thing; the others stand where they have to.
pub(super) const fn is_free(kind: NodeKind) -> bool {
    matches!(
        kind,
        NodeKind::Load
            | NodeKind::Unit
            | NodeKind::Rectifier
            | NodeKind::Converter
            | NodeKind::Inverter
            | NodeKind::Ups
            | NodeKind::Strip
            | NodeKind::Outlet
            | NodeKind::Surge
    )
}

/// What a user might feed something from, whether it suits or not: it is judged before it is chosen.
const fn hands_on(kind: NodeKind) -> bool {
    matches!(
        kind,
        NodeKind::Disconnect
            | NodeKind::Panel
            | NodeKind::Strip
            | NodeKind::Ups
            | NodeKind::Distribution
            | NodeKind::Inverter
            | NodeKind::Converter
    )
}

/// The sources of a build that something might be fed from.
fn sources(network: &Network, input: Fed) -> Vec<ItemId> {
    let nodes = network.nodes.iter().filter(|node| hands_on(node.kind) && node.item() != Some(input.item()));
    nodes.filter_map(|node| node.item()).collect()
}

/// What was chosen for an input.
fn chosen_of(editor: Editor, input: Fed) -> Option<ChosenFeed> {
    editor.project_now().build.feeds.iter().find(|feed| feed.load == input).copied()
}

/// The edit that leaves an input with this source and position, or with neither.
pub(super) fn fed_by(load: Fed, from: Option<ItemId>, position: Option<u32>) -> Edit {
    match (from, position) {
        (None, None) => Edit::FreeFeed(load),
        _ => Edit::ChooseFeed(ChosenFeed { load, from, position }),
    }
}

/// The feeds of a device or unit: one row for each input that is in the network.
#[component]
pub(crate) fn FeedFields(
    /// Its inputs.
    inputs: Vec<Fed>,
) -> impl IntoView {
    inputs.into_iter().map(|input| view! { <Input input /> }).collect_view()
}

#[component]
fn Input(input: Fed) -> impl IntoView {
    let editor = use_editor();
    let ViewState { topic, side, finding, .. } = use_view();
    let opened = use_context::<PanelOpened>();
    let now = Memo::new(move |_| feeding(editor, input));
    let there = Memo::new(move |_| now.with(|now| now.as_ref().map(|now| (now.free, now.counted))));
    let text = Signal::derive(move || now.with(|now| now.as_ref().map_or_else(String::new, |now| now.words.clone())));
    let position = editor.part(move |project| {
        let chosen = project.build.feeds.iter().find(|feed| feed.load == input);
        chosen.and_then(|feed| feed.position).map(f64::from)
    });
    let options = Callback::new(move |()| {
        let (project, catalogue) = (editor.project_now(), editor.catalogue_now());
        let case = Case::new(&project, &catalogue);
        let chosen = chosen_of(editor, input);
        let from = chosen.and_then(|chosen| chosen.from);
        let free = ("whatever is nearest".to_owned(), Edit::FreeFeed(input), from.is_none());
        let others = sources(&case.network, input).into_iter().filter_map(|id| {
            let name = case.name(case.device(id)?).shown(units::System::Metric);
            Some((name, fed_by(input, Some(id), None), from == Some(id)))
        });
        std::iter::once(free).chain(others).collect()
    });
    let label = if matches!(input, Fed::Second(_)) { "Input B fed from" } else { "Fed from" };
    let place = move |number: Typed| {
        let position = match number {
            Some(number) if number.fract() != 0.0 || !(1.0..=200.0).contains(&number) => {
                return Err("A whole number from 1 to 200".to_owned());
            }
            Some(number) => Some(number as u32),
            None => None,
        };
        editor.try_apply(&fed_by(input, chosen_of(editor, input).and_then(|chosen| chosen.from), position))
    };
    let on_line = move |_| {
        topic.set(rules::Topic::Power);
        finding.set(None);
        side.set(Some(SideOf::OneLine));
        if let Some(opened) = opened {
            opened.close();
        }
    };
    move || {
        there.get().map(|(free, counted)| {
            let what = if free {
                view! { <ChoiceBlank label text options /> }
            } else {
                view! { {move || text.get()} }
            };
            view! {
                <dl class="parts">
                    <Part name=label>
                        {what}
                        <span class="said o-fails">{move || now.with(|now| now.as_ref().and_then(|now| now.trouble)).map(|words| format!(" {words}"))}</span>
                        {(!matches!(input, Fed::Second(_))).then(|| view! {
                            " "
                            <button type="button" class="blank" on:click=on_line>"Show its way"</button>
                        })}
                    </Part>
                </dl>
                {(free && counted).then(|| view! {
                    <div class="form__grid">
                        <QuantityField label="Position there" kind=Kind::Count value=position may_be_empty=true help="Empty: the first that is free." on_commit=place />
                    </div>
                })}
            }
        })
    }
}
