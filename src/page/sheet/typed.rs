//! Of a machine of one's own: how far each figure that was typed may be off before the answer changes.

// What a sheet is about is a handful of handles, made to be copied.
#![allow(clippy::large_types_passed_by_value)]

use super::super::breath::{Breath, breathe};
use super::super::document::Plain;
use super::super::fold::Fold;
use super::About;
use document::{Block, Fact, Look};
use fit::step;
use leptos::prelude::*;
use leptos::task::spawn_local;
use record::plate::{Holds, Plate};

/// The figures with how far they hold, worked out when it is opened.
#[component]
pub fn Typed(plate: Plate, about: About) -> impl IntoView {
    let count = plate.weighed().len();
    let plate = StoredValue::new(plate);
    let summary = Signal::derive(move || about.app.words().figures_written(count));
    view! {
        <Fold id="typed-part" name="How far a typed figure may be off" summary>
            <Weighed plate about/>
        </Fold>
    }
}

#[component]
fn Weighed(plate: StoredValue<Plate>, about: About) -> impl IntoView {
    let figures = plate.with_value(Plate::weighed);
    let (count, weighed) = (figures.len(), RwSignal::new(Vec::<Holds>::new()));
    let conditions = about.app.table().map(|loaded| loaded.conditions.clone());
    spawn_local(async move {
        breathe().await;
        let breath = Breath::new();
        let (Some(plate), Some(conditions)) = (plate.try_get_value(), conditions) else { return };
        for figure in figures {
            let Some(holds) = about.pair.try_with_value(|(_, head)| plate.holds(figure, head, &conditions)) else {
                return;
            };
            weighed.try_update(|weighed| weighed.extend(holds));
            step(&breath).await;
        }
    });
    let done = Memo::new(move |_| weighed.with(Vec::len) == count);
    let blocks = Signal::derive(move || {
        let words = about.app.words();
        let fact = |holds: &Holds| Fact::new(words.figure_title(holds.figure), [words.holds(holds)]);
        vec![Block::Facts { look: Look::Facts, facts: weighed.with(|weighed| weighed.iter().map(fact).collect()) }]
    });
    view! {
        <p role="status" class="quiet" aria-busy=move || (!done.get()).to_string()>
            {move || (!done.get()).then(|| about.app.words().weighing(weighed.with(Vec::len), count))}
        </p>
        <Plain blocks/>
    }
}
