//! A device that is selected: what it is, its place, its figures.

use catalogue::{Device, DeviceKind};
use geometry::Of;
use leptos::prelude::*;
use project::{DeviceWhat, Edit, Fed, FittedDevice, ItemId};
use rules::Subject;

use super::Panel;
use super::figures::Figures;
use super::findings::Findings;
use super::place::PlaceFields;
use crate::build_list::Part;
use crate::devices::{KINDS, kind_words, place_words};
use crate::editor::{Editor, use_editor};
use crate::lean::{Memo, effect, view};
use crate::parts::{ChoiceBlank, TextField};
use crate::view_state::use_view;
use crate::wiring::FeedFields;

/// A device, for the fields that show and change it.
#[derive(Clone, Copy)]
pub(super) struct Chosen {
    /// The page's editor.
    pub(super) editor: Editor,
    /// Its number.
    pub(super) id: ItemId,
    /// As fitted; none once it is removed.
    pub(super) fitted: Memo<Option<FittedDevice>>,
    /// Its data.
    pub(super) spec: Memo<Option<Device>>,
}

impl Chosen {
    fn new(editor: Editor, id: ItemId) -> Self {
        let fitted = editor.part(move |project| project.build.device(id).cloned());
        let spec = Memo::new(move |_| fitted.with(|fitted| fitted.as_ref()?.resolve(&editor.catalogue()).cloned()));
        Self { editor, id, fitted, spec }
    }

    /// Its data as they are now, without tracking them.
    pub(super) fn now(self) -> Option<Device> {
        self.spec.get_untracked()
    }

    /// The edit that changes its data; it becomes the customer's own.
    pub(super) fn changed(self, change: impl FnOnce(&mut Device)) -> Option<Edit> {
        let mut to = self.now()?;
        change(&mut to);
        Some(Edit::ChangeDevice { device: self.id, to: Box::new(to) })
    }

    /// Changes its data, and says why not.
    pub(super) fn change(self, change: impl FnOnce(&mut Device)) -> Result<(), String> {
        self.changed(change).map_or(Ok(()), |edit| self.editor.try_apply(&edit))
    }

    /// Options that change one of its data.
    pub(super) fn options<T: PartialEq + Copy + Send + Sync + 'static>(
        self,
        all: &'static [(T, &'static str)],
        get: fn(&Device) -> T,
        set: fn(&mut Device, T),
    ) -> Callback<(), Vec<(String, Edit, bool)>> {
        Callback::new(move |()| {
            let Some(now) = self.now() else { return Vec::new() };
            all.iter()
                .filter_map(|(value, name)| {
                    let edit = self.changed(|device| set(device, *value))?;
                    Some(((*name).to_owned(), edit, get(&now) == *value))
                })
                .collect()
        })
    }

    /// The words for one of its data.
    pub(super) fn words<T: PartialEq + Copy + Send + Sync + 'static>(
        self,
        all: &'static [(T, &'static str)],
        get: fn(&Device) -> T,
    ) -> Signal<String> {
        Signal::derive(move || {
            let now = self.spec.with(|spec| spec.as_ref().map(get));
            now.and_then(|now| all.iter().find(|(value, _)| *value == now))
                .map_or_else(String::new, |(_, name)| (*name).to_owned())
        })
    }
}

/// The kinds, to choose from.
const KIND_NAMES: [(DeviceKind, &str); KINDS.len()] = {
    let mut names = [(DeviceKind::Network, ""); KINDS.len()];
    let mut index = 0;
    while index < KINDS.len() {
        names[index] = (KINDS[index].0, KINDS[index].1);
        index += 1;
    }
    names
};

/// The panel of a device.
#[component]
pub(super) fn DevicePanel(
    /// Which.
    id: ItemId,
) -> impl IntoView {
    let editor = use_editor();
    let selected = use_view().selected;
    let chosen = Chosen::new(editor, id);
    // What was removed or undone is no longer there to be shown.
    effect(move |_| {
        if chosen.fitted.with(Option::is_none) && selected.get_untracked() == Some(Of::Device(id)) {
            selected.set(None);
        }
    });
    let name = Signal::derive(move || {
        chosen.spec.with(|spec| spec.as_ref().map_or_else(|| part_number(chosen), |spec| spec.name.clone()))
    });
    let what = Signal::derive(move || {
        let at = chosen.fitted.with(|fitted| fitted.as_ref().map(|fitted| place_words(fitted.at)).unwrap_or_default());
        chosen
            .spec
            .with(|spec| spec.as_ref().map_or_else(String::new, |spec| format!("{}, {at}", kind_words(spec.kind))))
    });
    let from_catalogue = Memo::new(move |_| {
        chosen.fitted.with(|fitted| matches!(fitted.as_ref().map(|fitted| &fitted.what), Some(DeviceWhat::Part(_))))
    });
    let known = Memo::new(move |_| chosen.spec.with(Option::is_some));
    view! {
        <Panel name what>
            <Findings subject=Subject::Device(id) />
            <PlaceFields chosen />
            <FeedFields inputs=vec![Fed::Device(id), Fed::Second(id)] />
            {move || if known.get() {
                view! {
                    <dl class="parts">
                        <Part name="Kind">
                            <ChoiceBlank
                                label="Kind"
                                text=chosen.words(&KIND_NAMES, |device| device.kind)
                                options=chosen.options(&KIND_NAMES, |device| device.kind, |device, kind| device.kind = kind)
                            />
                        </Part>
                    </dl>
                    <div class="form__grid">
                        <TextField label="Name" value=name on_commit=move |name: String| chosen.change(|device| device.name = name) />
                    </div>
                    <Figures chosen />
                }
                .into_any()
            } else {
                view! { <p class="field__help">"This catalogue does not know it, so it has no figures."</p> }.into_any()
            }}
            <p class="field__help">
                {move || if from_catalogue.get() {
                    "From the catalogue. Changing a figure makes it the customer’s own."
                } else {
                    "The customer’s own."
                }}
            </p>
            <p class="form__acts">
                <button type="button" class="press press--quiet" on:click=move |_| {
                    editor.apply(&Edit::RemoveDevice(id));
                }>"Remove"</button>
            </p>
        </Panel>
    }
}

/// What stands for a name the catalogue does not know.
fn part_number(chosen: Chosen) -> String {
    chosen.fitted.with(|fitted| match fitted.as_ref().map(|fitted| &fitted.what) {
        Some(DeviceWhat::Part(part)) => part.to_string(),
        Some(DeviceWhat::Own(own)) => own.name.clone(),
        None => String::new(),
    })
}
