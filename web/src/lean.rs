//! What the library would build anew for every type, built once. **Invariant:** nothing here changes what the page does; it
//! only keeps small what a browser has to load before it.

use std::any::Any;
use std::cmp::Ordering;
use std::marker::PhantomData;
use std::sync::Arc;

use leptos::prelude::{AnyView, Effect, For, ForProps, Get, GetUntracked, IntoAny, Set, Signal, Track};
use leptos::reactive::computed::Memo as Computed;
use leptos::reactive::signal::RwSignal as Source;

/// A view behind one type, whatever it is made of, so that lists and choices of views need no code of their own.
macro_rules! view {
    ($($markup:tt)*) => { ::leptos::prelude::IntoAny::into_any(::leptos::prelude::view! { $($markup)* }) };
}
pub(crate) use view;

/// A value of any type.
type Kept = Arc<dyn Any + Send + Sync>;

fn own<T: Send + Sync + 'static>(kept: Kept) -> Arc<T> {
    let Ok(value) = kept.downcast() else { unreachable!("only `new` and `set` put a value in, and of this type") };
    value
}

/// A value that is set, and wakes its readers when it is.
pub struct RwSignal<T> {
    kept: Source<Kept>,
    of: PhantomData<fn() -> T>,
}

impl<T> Clone for RwSignal<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for RwSignal<T> {}

impl<T: Send + Sync + 'static> RwSignal<T> {
    /// With its first value.
    pub fn new(value: T) -> Self {
        Self { kept: kept(Arc::new(value)), of: PhantomData }
    }

    /// Another value.
    pub fn set(&self, value: T) {
        keep(self.kept, Arc::new(value));
    }

    /// Another value, unless whatever owned this is gone.
    pub fn try_set(&self, value: T) {
        self.kept.try_set(Arc::new(value));
    }

    /// The value itself, shared; tracks it.
    pub fn read(&self) -> Arc<T> {
        own(shared(self.kept))
    }

    /// The value itself, shared, without tracking it.
    pub fn read_untracked(&self) -> Arc<T> {
        own(shared_untracked(self.kept))
    }

    /// The value, looked at; tracks it.
    pub fn with<U>(&self, look: impl FnOnce(&T) -> U) -> U {
        look(&self.read())
    }

    /// Wakes whoever asks here when the value is set.
    pub fn track(&self) {
        self.kept.track();
    }
}

impl<T: Clone + Send + Sync + 'static> RwSignal<T> {
    /// The value; tracks it.
    pub fn get(&self) -> T {
        self.with(T::clone)
    }

    /// The value, without tracking it.
    pub fn get_untracked(&self) -> T {
        T::clone(&self.read_untracked())
    }

    /// The value, without tracking it; none when whatever owned it is gone.
    pub fn try_get_untracked(&self) -> Option<T> {
        self.kept.try_get_untracked().map(|kept| T::clone(&own(kept)))
    }

    /// Changes the value.
    pub fn update(&self, change: impl FnOnce(&mut T)) {
        let mut value = self.get_untracked();
        change(&mut value);
        self.set(value);
    }
}

impl<T: Clone + Send + Sync + 'static> From<RwSignal<T>> for Signal<T> {
    fn from(signal: RwSignal<T>) -> Self {
        Self::derive(move || signal.get())
    }
}

fn kept(value: Kept) -> Source<Kept> {
    Source::new(value)
}

fn keep(source: Source<Kept>, value: Kept) {
    source.set(value);
}

fn shared(source: Source<Kept>) -> Kept {
    source.get()
}

fn shared_untracked(source: Source<Kept>) -> Kept {
    source.get_untracked()
}

/// A value of any type, and how two of its type are compared.
#[derive(Clone)]
struct Held {
    value: Kept,
    same: fn(&dyn Any, &dyn Any) -> bool,
}

fn same<T: PartialEq + 'static>(one: &dyn Any, other: &dyn Any) -> bool {
    one.downcast_ref::<T>() == other.downcast_ref::<T>()
}

/// A value that is computed from others, and wakes its readers only when it has changed.
pub struct Memo<T> {
    computed: Computed<Held>,
    of: PhantomData<fn() -> T>,
}

impl<T> Clone for Memo<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for Memo<T> {}

impl<T: PartialEq + Send + Sync + 'static> Memo<T> {
    /// A value computed by a function, which is handed the value before.
    pub fn new(compute: impl Fn(Option<&T>) -> T + Send + Sync + 'static) -> Self {
        let held = move |before: Option<&Held>| {
            let value = Arc::new(compute(before.and_then(|before| before.value.downcast_ref())));
            Held { value, same: same::<T> }
        };
        Self { computed: computed(Box::new(held)), of: PhantomData }
    }

    /// The value itself, shared; tracks it.
    pub fn read(&self) -> Arc<T> {
        own(self.computed.get().value)
    }

    /// The value, looked at; tracks it.
    pub fn with<U>(&self, look: impl FnOnce(&T) -> U) -> U {
        look(&self.read())
    }

    /// The value, looked at without tracking it.
    pub fn with_untracked<U>(&self, look: impl FnOnce(&T) -> U) -> U {
        look(&own(self.computed.get_untracked().value))
    }
}

impl<T: PartialEq + Clone + Send + Sync + 'static> Memo<T> {
    /// The value; tracks it.
    pub fn get(&self) -> T {
        self.with(T::clone)
    }

    /// The value, without tracking it.
    pub fn get_untracked(&self) -> T {
        self.with_untracked(T::clone)
    }
}

impl<T: PartialEq + Clone + Send + Sync + 'static> From<Memo<T>> for Signal<T> {
    fn from(memo: Memo<T>) -> Self {
        Self::derive(move || memo.get())
    }
}

/// What a memo holds, as a signal that is set only when it is another. Whoever reads a memo is asked anew after every edit
/// whether it has changed; whoever reads this is left alone until it has. Worth it where many read the same.
pub fn settled<T: PartialEq + Clone + Send + Sync + 'static>(memo: Memo<T>) -> RwSignal<T> {
    let settled = RwSignal::new(memo.get_untracked());
    effect(move |_| settle(settled, &memo.read()));
    settled
}

/// Sets a signal unless it is that already, or gone.
pub fn settle<T: PartialEq + Clone + Send + Sync + 'static>(signal: RwSignal<T>, now: &T) {
    if signal.try_get_untracked().is_some_and(|before| before != *now) {
        signal.try_set(now.clone());
    }
}

type Compute = Box<dyn Fn(Option<&Held>) -> Held + Send + Sync>;

fn computed(compute: Compute) -> Computed<Held> {
    Computed::new_with_compare(compute, |before, after| match (before, after) {
        (Some(before), Some(after)) => !(after.same)(&*before.value, &*after.value),
        _ => true,
    })
}

/// Runs something now and whenever what it read has changed. It is handed nothing the first time.
pub fn effect(act: impl FnMut(Option<()>) + 'static) {
    let act: Box<dyn FnMut(Option<()>)> = Box::new(act);
    Effect::new(act);
}

/// A text in small letters. The browser knows them of every script; its tables need not be loaded once more.
pub fn lower(text: &str) -> String {
    js_sys::JsString::from(text).to_lower_case().into()
}

/// Things in the order that a comparison gives them; equal ones keep theirs.
pub fn ordered<T>(things: Vec<T>, compare: impl Fn(&T, &T) -> Ordering) -> Vec<T> {
    fn indices(count: usize, compare: &dyn Fn(usize, usize) -> Ordering) -> Vec<usize> {
        let mut all: Vec<usize> = (0..count).collect();
        all.sort_by(|one, other| compare(*one, *other));
        all
    }
    let order = indices(things.len(), &|one, other| compare(&things[one], &things[other]));
    let mut things: Vec<Option<T>> = things.into_iter().map(Some).collect();
    order.into_iter().filter_map(|index| things[index].take()).collect()
}

/// One row of a list that is to be kept: what tells it from the others, and what it shows.
#[derive(Clone)]
struct Item {
    key: String,
    shows: Kept,
}

/// A row for each item. A row stays the same node as long as its key is there.
pub fn rows<T: Send + Sync + 'static>(
    items: impl Fn() -> Vec<(String, T)> + Send + Sync + 'static,
    row: impl Fn(&T) -> AnyView + Send + Sync + 'static,
) -> AnyView {
    let items =
        move || items().into_iter().map(|(key, shows)| Item { key, shows: Arc::new(shows) }).collect::<Vec<_>>();
    let row = move |item: Item| item.shows.downcast_ref().map_or_else(|| ().into_any(), &row);
    listed(Box::new(items), Arc::new(row))
}

type Items = Box<dyn Fn() -> Vec<Item> + Send + Sync>;
type Row = Arc<dyn Fn(Item) -> AnyView + Send + Sync>;

fn listed(items: Items, row: Row) -> AnyView {
    let key = |item: &Item| item.key.clone();
    For(ForProps::builder().each(items).key(key).children(move |item| row(item)).build()).into_any()
}
