//! The elevations: what is on the rails, front and rear, at true height. Here devices are moved and removed.

mod backdrop;
mod device;
mod drag;
mod empty;
mod flat;
mod frame;
mod loose;
mod marks;
mod stage;

use catalogue::Catalogue;
use leptos::{html, prelude::*};
use project::{FittedDevice, ItemId, Place, units_needed};

use crate::built::limiting;
use crate::editor::use_editor;
use crate::later::use_arrival;
use crate::lean::{Memo, RwSignal, effect, rows, settle, settled, view};
use device::{Device, Ghost};
use drag::{Drag, Dragging};
pub(crate) use empty::Empty;
pub use flat::FlatModel;
use frame::Frame;
use loose::Loose;
pub(crate) use marks::fitted;
use marks::{Mark, mark_of, marks};

/// The left of the sheet.
#[component]
pub fn Elevations(
    /// Opens the list of devices.
    #[prop(into)]
    on_devices: Callback<()>,
) -> impl IntoView {
    let (editor, arrival) = (use_editor(), use_arrival());
    let fit = NodeRef::<html::Div>::new();
    let stage = stage::stage_of(fit);
    let held = RwSignal::new(None::<Drag>);
    let highest = Memo::new(move |before: Option<&u32>| {
        // While something is held the drawing keeps its scale, or it would slip away under the pointer.
        if let (Some(before), true) = (before, held.with(Option::is_some)) {
            return *before;
        }
        let catalogue = editor.catalogue();
        editor.project().build.devices.iter().filter_map(|device| highest_unit(device, &catalogue)).max().unwrap_or(0)
    });
    let frame = Memo::new(move |_| editor.model().map(|model| Frame::of(&model.layout, highest.get(), stage.get())));
    let all = Memo::new(move |_| {
        let (Some(frame), Some(model)) = (frame.get(), editor.model()) else { return Vec::new() };
        marks(&editor.project().build, &editor.catalogue(), &model, &frame)
    });
    let limiting = settled(Memo::new(move |_| limiting(&editor.report())));
    let dragging = Dragging::new(editor, frame, held);
    let moved = Memo::new(move |_| held.with(|held| held.as_ref().filter(|held| held.moved).map(|held| held.id)));
    // In the order of the project, so that no node moves when its device does: focus and pointer stay with it.
    let ids = Memo::new(move |_| {
        let moved = moved.get();
        all.with(|all| {
            let shown = |id: &ItemId| mark_of(all, *id).is_some() || moved == Some(*id);
            editor.project().build.devices.iter().map(|device| device.id).filter(shown).collect::<Vec<_>>()
        })
    });
    // Each device reads its own mark alone, so that an edit reaches only those that it moves.
    let each = StoredValue::new(Vec::<(ItemId, RwSignal<Option<Mark>>)>::new());
    let mark_for = move |id: ItemId| {
        let mark = RwSignal::new(all.with_untracked(|all| mark_of(all, id).cloned()));
        each.update_value(|each| each.push((id, mark)));
        on_cleanup(move || {
            each.try_update_value(|each| each.retain(|(of, _)| *of != id));
        });
        mark
    };
    effect(move |_| {
        let all = all.read();
        for (id, mark) in each.get_value() {
            settle(mark, &mark_of(&all, id).cloned());
        }
    });
    let drawable = Memo::new(move |_| frame.with(Option::is_some));
    let empty = editor.part(|project| project.build.devices.is_empty());
    let frame_box =
        move || frame.with(|frame| frame.as_ref().map(|frame| format!("0 0 {:.1} {:.1}", frame.width, frame.height)));
    let hidden = move || {
        let paths: String = all.with(|all| {
            let rects = all.iter().filter_map(|(_, mark)| mark.hidden);
            rects
                .map(|rect| {
                    format!("M{:.1} {:.1}h{:.1}v{:.1}h{:.1}Z", rect.x, rect.y, rect.width, rect.height, -rect.width)
                })
                .collect()
        });
        view! { <path class="e-hidden" d=paths /> }
    };
    view! {
        <section class="elev" aria-label="Elevations">
            <div class="elev__beside">
                <button type="button" class="blank elev__add" aria-haspopup="dialog" on:click=move |_| on_devices.run(())>"Add a device"</button>
                <Loose limiting />
            </div>
            <p class="sr" id="elev-keys">
                "Arrows move it, f and r put it on the front or rear rails, Delete removes it, Enter selects it."
            </p>
            <div class="elev__fit" node_ref=fit>
                {move || if !drawable.get() {
                    view! { <p class="elev__none">"This catalogue lacks a part of the body, so the cabinet cannot be drawn."</p> }
                } else { view! {
                    <svg class="elev__svg" viewBox=move || frame_box() role="group" aria-label=move || drawing_words(frame.get())>
                        {move || frame.get().map(|frame| backdrop::backdrop(&frame))}
                        {move || hidden()}
                        <g>
                            {rows(
                                move || ids.get().into_iter().map(|id| (id.0.to_string(), id)).collect(),
                                move |&id| {
                                    view! { <Device id mark=mark_for(id) limiting dragging /> }
                                },
                            )}
                        </g>
                        <Ghost dragging marks=all frame />
                    </svg>
                }}}
                {move || empty.get().then(|| arrival.show_when_here(|later| (later.empty)()))}
            </div>
        </section>
    }
}

/// The highest unit that a device on rails takes.
fn highest_unit(device: &FittedDevice, catalogue: &Catalogue) -> Option<u32> {
    match device.at {
        Place::Rack { unit, .. } => {
            Some(unit.saturating_add(units_needed(device.resolve(catalogue)?)).saturating_sub(1))
        }
        _ => None,
    }
}

fn drawing_words(frame: Option<Frame>) -> String {
    let Some(frame) = frame else { return String::new() };
    let bays = if frame.strips.len() > 2 { "two bays" } else { "one bay" };
    format!("Front and rear elevation, {bays} of {} rack units", frame.units)
}
