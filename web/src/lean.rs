//! What the library would build anew for every type, built once. **Invariant:** nothing here changes what the page does; it
//! only keeps small what a browser has to load before it.

use std::any::Any;
use std::cmp::Ordering;
use std::marker::PhantomData;
use std::sync::Arc;

use leptos::prelude::{AnyView, Effect, For, ForProps, Get, GetUntracked, IntoAny, Signal};
use leptos::reactive::computed::Memo as Computed;

/// A view behind one type, whatever it is made of, so that lists and choices of views need no code of their own.
macro_rules! view {
    ($($markup:tt)*) => { ::leptos::prelude::IntoAny::into_any(::leptos::prelude::view! { $($markup)* }) };
}
pub(crate) use view;

/// A value of any type, and how two of its type are compared.
#[derive(Clone)]
struct Held {
    value: Arc<dyn Any + Send + Sync>,
    same: fn(&dyn Any, &dyn Any) -> bool,
}

fn same<T: PartialEq + 'static>(one: &dyn Any, other: &dyn Any) -> bool {
    one.downcast_ref::<T>() == other.downcast_ref::<T>()
}

/// A value that is computed from others, and wakes its readers only when it has changed.
pub(crate) struct Memo<T> {
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
    pub(crate) fn new(compute: impl Fn(Option<&T>) -> T + Send + Sync + 'static) -> Self {
        let held = move |before: Option<&Held>| {
            let value = Arc::new(compute(before.and_then(|before| before.value.downcast_ref())));
            Held { value, same: same::<T> }
        };
        Self { computed: computed(Box::new(held)), of: PhantomData }
    }

    /// The value itself, shared; tracks it.
    pub(crate) fn read(&self) -> Arc<T> {
        Self::own(self.computed.get())
    }

    /// The value, looked at; tracks it.
    pub(crate) fn with<U>(&self, look: impl FnOnce(&T) -> U) -> U {
        look(&self.read())
    }

    /// The value, looked at without tracking it.
    pub(crate) fn with_untracked<U>(&self, look: impl FnOnce(&T) -> U) -> U {
        look(&Self::own(self.computed.get_untracked()))
    }

    fn own(held: Held) -> Arc<T> {
        let Ok(value) = held.value.downcast() else { unreachable!("only `new` puts a value in, and of this type") };
        value
    }
}

impl<T: PartialEq + Clone + Send + Sync + 'static> Memo<T> {
    /// The value; tracks it.
    pub(crate) fn get(&self) -> T {
        self.with(T::clone)
    }

    /// The value, without tracking it.
    pub(crate) fn get_untracked(&self) -> T {
        self.with_untracked(T::clone)
    }
}

impl<T: PartialEq + Clone + Send + Sync + 'static> From<Memo<T>> for Signal<T> {
    fn from(memo: Memo<T>) -> Self {
        Self::derive(move || memo.get())
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
pub(crate) fn effect(act: impl FnMut(Option<()>) + 'static) {
    let act: Box<dyn FnMut(Option<()>)> = Box::new(act);
    Effect::new(act);
}

/// Things in the order that a comparison gives them; equal ones keep theirs.
pub(crate) fn ordered<T>(things: Vec<T>, compare: impl Fn(&T, &T) -> Ordering) -> Vec<T> {
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
    shows: Arc<dyn Any + Send + Sync>,
}

/// A row for each item. A row stays the same node as long as its key is there.
pub(crate) fn rows<T: Send + Sync + 'static>(
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
