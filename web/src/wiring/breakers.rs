//! The schedule of breakers: each position of a load centre or distribution, as they stand in it. A breaker is moved to
//! another position, or onto another board, by arrows or by dragging; each move is one step of undo.

use leptos::{ev, prelude::*};
use project::{ChosenFeed, Edit, Fed, ItemId};
use units::{Kind, System, Value, show};
use wasm_bindgen::JsCast;

use super::boards::{Board, Breaker, all_boards, amperes};
use crate::editor::{Editor, use_editor};
use crate::lean::{Memo, RwSignal, rows, view};
use crate::view_state::{ViewState, use_view};

/// How far the pointer must go before a press becomes a drag, px.
const THRESHOLD: f64 = 5.0;

/// Where a breaker is held over: a position of a board.
type Over = (ItemId, u32);

/// A breaker that is held.
#[derive(Clone, PartialEq)]
struct Held {
    from: Over,
    breaker: Breaker,
    start: (f64, f64),
    moved: bool,
}

/// What moves breakers.
#[derive(Clone, Copy)]
struct Moving {
    editor: Editor,
    boards: Memo<Vec<Board>>,
    held: RwSignal<Option<Held>>,
    over: RwSignal<Option<Over>>,
    /// Where the focus goes once the schedule is drawn anew.
    follow: RwSignal<Option<Fed>>,
}

/// All boards.
#[component]
pub(crate) fn Breakers() -> impl IntoView {
    let editor = use_editor();
    let boards = all_boards(editor);
    let moving =
        Moving { editor, boards, held: RwSignal::new(None), over: RwSignal::new(None), follow: RwSignal::new(None) };
    let escape = window_event_listener(ev::keydown, move |event| {
        if event.key() == "Escape" && moving.held.get_untracked().is_some() {
            event.prevent_default();
            moving.let_go();
        }
    });
    on_cleanup(move || escape.remove());
    let listed = move || boards.get().into_iter().map(|board| (format!("{:?}", board.device), board.device)).collect();
    let board = move |device: &ItemId| view! { <OneBoard moving device=*device /> };
    view! {
        <p class="wiring__say wiring__say--soft">
            "Arrows move a breaker to another position, dragging onto another board too. All else makes room."
        </p>
        {rows(listed, board)}
        {move || boards.with(Vec::is_empty).then(|| view! { <p class="wiring__say">"No load centre and no distribution is placed."</p> })}
    }
}

#[component]
fn OneBoard(moving: Moving, device: ItemId) -> impl IntoView {
    let units = use_view().units;
    let board =
        Memo::new(move |_| moving.boards.with(|boards| boards.iter().find(|board| board.device == device).cloned()));
    let head = move || {
        board.with(|board| {
            let board = board.as_ref()?;
            let mut words = vec![format!("{} of {} taken", board.taken, board.positions)];
            words.push(board.power_words(board.load, units.get()));
            words.extend(board.phases.iter().map(|(letter, load)| {
                format!("{letter}\u{a0}{}", board.power_words(*load, units.get()))
            }));
            words.push(format!("bus {}", amperes(board.bus)));
            Some(view! { <h4 class="board__head"><b>{board.name.clone()}</b> " " <span class="board__sum">{words.join(", ")}</span></h4> })
        })
    };
    let slots = move || board.with(|board| board.as_ref().map(slots).unwrap_or_default());
    let slot = move |shown: &Slot| view! { <OneSlot moving shown=shown.clone() /> };
    let name = move || board.with(|board| board.as_ref().map_or_else(String::new, |board| board.name.clone()));
    view! {
        <div class="board">
            {move || head()}
            <ul class="slots" aria-label=name>{rows(slots, slot)}</ul>
            <details class="numbers">
                <summary>"The same as a table"</summary>
                {move || board.with(|board| board.as_ref().map(|board| table(board, units.get())))}
            </details>
        </div>
    }
}

/// A position, or the breaker that begins there.
#[derive(Clone, Debug, PartialEq)]
struct Slot {
    device: ItemId,
    position: Option<u32>,
    cell: (u32, u32),
    breaker: Option<Breaker>,
    direct: bool,
}

fn slots(board: &Board) -> Vec<(String, Slot)> {
    let slot = |position: Option<u32>, cell: (u32, u32), breaker: Option<&Breaker>| {
        let slot = Slot { device: board.device, position, cell, breaker: breaker.cloned(), direct: board.direct };
        (format!("{slot:?}"), slot)
    };
    let mut all = Vec::new();
    for position in 1..=board.positions {
        let breaker = board.at(position);
        if breaker.is_none_or(|breaker| breaker.position == Some(position)) {
            all.push(slot(Some(position), board.cell(position), breaker));
        }
    }
    // What found no position stands below.
    let below = board.positions.div_ceil(2);
    let homeless = board.breakers.iter().filter(|breaker| breaker.position.is_none()).zip(1..);
    all.extend(homeless.map(|(breaker, at)| slot(None, (below + at, 1), Some(breaker))));
    all
}

#[component]
fn OneSlot(moving: Moving, shown: Slot) -> impl IntoView {
    let ViewState { selected, units, .. } = use_view();
    let Slot { device, position, cell: (row, column), breaker, direct } = shown;
    let place = position.map_or_else(|| "–".to_owned(), |position| position.to_string());
    let over = move || position.is_some_and(|position| moving.over.get() == Some((device, position)));
    let rows = breaker.as_ref().map_or(1, |breaker| if breaker.position.is_some() { breaker.poles } else { 1 });
    let span = format!("{row} / span {rows}");
    let Some(breaker) = breaker else {
        return view! {
            <li class="slot slot--free" class:slot--over=over style:grid-row=span style:grid-column=column.to_string() data-slot=slot_name(device, position)>
                <span class="slot__place">{place}</span><span class="slot__name">"free"</span>
            </li>
        };
    };
    let load = breaker.load;
    let of = load.map(|load| match load {
        Fed::Device(id) | Fed::Second(id) => geometry::Of::Device(id),
        Fed::Unit(id) => geometry::Of::Unit(id),
    });
    let kind = if direct { Kind::Power } else { Kind::ApparentPower };
    let power = {
        let power = breaker.power;
        move || show(Value::new(power, kind), units.get()).to_string()
    };
    let label = {
        let (breaker, power) = (breaker.clone(), power);
        move || {
            let misplaced = breaker.misplaced.as_ref().map_or_else(String::new, |words| format!(": {words}"));
            format!("{} {} {} {}{misplaced}", breaker.place(), breaker.name, breaker.words(), power())
        }
    };
    let chosen = move || of.is_some() && selected.get() == of;
    let node = NodeRef::<leptos::html::Button>::new();
    crate::lean::effect(move |_| {
        if let (Some(node), Some(load)) = (node.get(), load)
            && moving.follow.get_untracked() == Some(load)
        {
            moving.follow.set(None);
            // Focus can only be refused by an element that is gone.
            let _ = node.focus();
        }
    });
    let (pressed, keyed) = (breaker.clone(), breaker.clone());
    view! {
        <li class="slot" class:slot--over=over class:slot--chosen=chosen class:slot--tall={rows > 1} class:slot--odd=breaker.misplaced.is_some() || position.is_none() style:grid-row=span style:grid-column=column.to_string() data-slot=slot_name(device, position)>
            <button
                node_ref=node
                type="button"
                class="slot__breaker"
                aria-label=label
                aria-pressed=move || chosen().to_string()
                on:click=move |_| {
                    if !moving.was_drag() && of.is_some() {
                        selected.set(of);
                    }
                }
                on:keydown=move |event: ev::KeyboardEvent| {
                    if !(event.ctrl_key() || event.meta_key() || event.alt_key()) && moving.key(device, &keyed, &event.key()) {
                        event.prevent_default();
                        event.stop_propagation();
                    }
                }
                on:pointerdown=move |event: ev::PointerEvent| moving.press(&event, device, &pressed)
                on:pointermove=move |event: ev::PointerEvent| moving.follow_pointer(&event)
                on:pointerup=move |_| moving.drop_it()
                on:pointercancel=move |_| moving.let_go()
            >
                <span class="slot__place">{breaker.place()}</span>" "
                <span class="slot__name">{breaker.name.clone()}</span>" "
                <span class="slot__words">{breaker.words()}</span>" "
                <span class="slot__power">{move || power()}</span>
                {breaker.misplaced.clone().map(|words| view! { <span class="slot__odd">{words}</span> })}
            </button>
        </li>
    }
}

/// How a slot is found under the pointer.
fn slot_name(device: ItemId, position: Option<u32>) -> String {
    position.map_or_else(String::new, |position| format!("{}:{position}", device.0))
}

impl Moving {
    /// Moves a breaker by a key. Answers whether the key means anything.
    fn key(self, board: ItemId, breaker: &Breaker, key: &str) -> bool {
        if !key.starts_with("Arrow") {
            return false;
        }
        let Some(from) = breaker.position.filter(|_| breaker.free) else { return true };
        let to = self.boards.with_untracked(|boards| {
            boards.iter().find(|one| one.device == board).and_then(|board| {
                // Past its own further poles.
                let mut to = board.step(from, key)?;
                while board.at(to).is_some_and(|other| other.load == breaker.load) {
                    to = board.step(to, key)?;
                }
                Some(to)
            })
        });
        if let Some(to) = to {
            self.put(breaker, (board, from), (board, to));
        }
        true
    }

    /// Puts a breaker into a position. What the user himself had put there takes its place.
    fn put(self, breaker: &Breaker, from: Over, to: Over) {
        let Some(load) = breaker.load else { return };
        self.follow.set(Some(load));
        let there = self.boards.with_untracked(|boards| {
            boards.iter().find(|board| board.device == to.0).and_then(|board| board.at(to.1)).cloned()
        });
        let asked = self.editor.project_now().build.feeds.clone();
        let asked_for = |load: Fed| asked.iter().any(|feed| feed.load == load && feed.position.is_some());
        self.editor.begin();
        if let Some(other) = there.filter(|other| other.load.is_some_and(asked_for))
            && let Some(moved) = other.load
        {
            let back = (to.0 == from.0).then_some(from.1);
            self.editor.apply(&super::feeding::fed_by(moved, other.chosen, back));
        }
        let source = if to.0 == from.0 { breaker.chosen } else { Some(to.0) };
        self.editor.apply(&Edit::ChooseFeed(ChosenFeed { load, from: source, position: Some(to.1) }));
        self.editor.end();
    }

    fn press(self, event: &ev::PointerEvent, board: ItemId, breaker: &Breaker) {
        let Some(position) = breaker.position.filter(|_| breaker.free) else { return };
        if event.button() != 0 || !event.is_primary() {
            return;
        }
        if let Some(element) = event.current_target().and_then(|target| target.dyn_into::<web_sys::Element>().ok()) {
            // Without capture the drag ends when the pointer leaves the breaker, which is still no fault.
            let _ = element.set_pointer_capture(event.pointer_id());
        }
        let start = (f64::from(event.client_x()), f64::from(event.client_y()));
        self.held.set(Some(Held { from: (board, position), breaker: breaker.clone(), start, moved: false }));
    }

    fn follow_pointer(self, event: &ev::PointerEvent) {
        let Some(mut held) = self.held.get_untracked() else { return };
        if event.buttons() == 0 {
            return self.let_go();
        }
        let (x, y) = (f64::from(event.client_x()), f64::from(event.client_y()));
        if !held.moved {
            if (x - held.start.0).hypot(y - held.start.1) < THRESHOLD {
                return;
            }
            held.moved = true;
            self.held.set(Some(held.clone()));
        }
        let under = document().element_from_point(x as f32, y as f32);
        let slot = under.and_then(|under| under.closest("[data-slot]").ok().flatten());
        let over = slot.and_then(|slot| slot.get_attribute("data-slot")).and_then(|name| {
            let (device, position) = name.split_once(':')?;
            Some((ItemId(device.parse().ok()?), position.parse().ok()?))
        });
        self.over.set(over.filter(|over| *over != held.from));
    }

    fn drop_it(self) {
        let (held, over) = (self.held.get_untracked(), self.over.get_untracked());
        self.over.set(None);
        if let (Some(held), Some(over)) = (held, over) {
            self.put(&held.breaker, held.from, over);
        }
    }

    fn let_go(self) {
        self.held.set(None);
        self.over.set(None);
    }

    /// Whether a click is only the end of a drag.
    fn was_drag(self) -> bool {
        let held = self.held.get_untracked();
        self.held.set(None);
        held.is_some_and(|held| held.moved)
    }
}

/// The schedule of a board as a table.
fn table(board: &Board, units: System) -> AnyView {
    let rows = board.breakers.iter().map(|breaker| {
        let (wire, ground) = breaker.wire.map_or(("none", None), |wire| wire);
        let length = breaker.length.map(|length| show(Value::new(length, Kind::Elevation), units).to_string());
        view! {
            <tr>
                <td>{breaker.place()}</td>
                <th scope="row">{breaker.name.clone()}</th>
                <td>{breaker.poles}</td>
                <td>{breaker.amperes.map_or_else(|| "none".to_owned(), amperes)}</td>
                <td>{wire}</td>
                <td>{ground}</td>
                <td>{breaker.legs.clone()}</td>
                <td>{length}</td>
                <td>{amperes(breaker.carries)}</td>
                <td>{board.power_words(breaker.power, units)}</td>
            </tr>
        }
    });
    view! {
        <table class="numbers__table wiring__table">
            <thead>
                <tr>
                    <th scope="col">"position"</th><th scope="col">"feeds"</th><th scope="col">"poles"</th>
                    <th scope="col">"breaker"</th><th scope="col">"wire"</th><th scope="col">"ground"</th>
                    <th scope="col">"phase"</th><th scope="col">"one way"</th><th scope="col">"carries"</th>
                    <th scope="col">"load"</th>
                </tr>
            </thead>
            <tbody>{rows.collect_view()}</tbody>
        </table>
    }
}
