//! Of a machine of one's own: how far each figure that was typed may be off before the answer changes.

use super::super::breath::{Breath, breathe};
use super::super::document::Plain;
use super::super::fold::Fold;
use super::super::state::app;
use document::{Block, Fact, Look};
use fit::step;
use leptos::prelude::*;
use leptos::task::spawn_local;
use record::plate::{Holds, Plate};
use table::{Carrier, Head};

/// The figures with how far they hold, worked out when it is opened.
#[component]
pub fn Typed(
    plate: Plate,
    /// Machine and attachment.
    pair: StoredValue<(Carrier, Head)>,
) -> impl IntoView {
    let app = app();
    let count = plate.weighed().len();
    let plate = StoredValue::new(plate);
    let summary = Signal::derive(move || app.words().figures_written(count));
    view! {
        <Fold id="typed-part" name="How far a typed figure may be off" summary>
            <Weighed plate pair/>
        </Fold>
    }
}

#[component]
fn Weighed(plate: StoredValue<Plate>, pair: StoredValue<(Carrier, Head)>) -> impl IntoView {
    let app = app();
    let figures = plate.with_value(Plate::weighed);
    let (count, weighed) = (figures.len(), RwSignal::new(Vec::<Holds>::new()));
    let conditions = app.table().map(|loaded| loaded.conditions.clone());
    spawn_local(async move {
        breathe().await;
        let breath = Breath::new();
        let (Some(plate), Some(conditions)) = (plate.try_get_value(), conditions) else { return };
        for figure in figures {
            let Some(holds) = pair.try_with_value(|(_, head)| plate.holds(figure, head, &conditions)) else {
                return;
            };
            weighed.try_update(|weighed| weighed.extend(holds));
            step(&breath).await;
        }
    });
    let done = Memo::new(move |_| weighed.with(Vec::len) == count);
    let blocks = Signal::derive(move || {
        let words = app.words();
        let fact = |holds: &Holds| Fact::new(words.figure_title(holds.figure), [words.holds(holds)]);
        vec![Block::Facts { look: Look::Facts, facts: weighed.with(|weighed| weighed.iter().map(fact).collect()) }]
    });
    view! {
        <p role="status" class="quiet" aria-busy=move || (!done.get()).to_string()>
            {move || (!done.get()).then(|| app.words().weighing(weighed.with(Vec::len), count))}
        </p>
        <Plain blocks/>
    }
}
