//! The sheet of one pairing: the answer first, then what can kill, what the machine must get, what is proved; what stands behind it
//! is folded.

mod typed;

use super::attributes::Part;
use super::circuit::{BrochureStrip, Thermometer, TooHot};
use super::document::Document;
use super::drawings::{CircuitDrawing, CurveDrawing, LiftDrawing, WarmingDrawing};
use super::enquiry::Ask;
use super::fold::{Fold, open_on_paper};
use super::handover;
use super::loaded::Loaded;
use super::names::label;

use super::deciding_fact::SettleFirst;
use super::path::PathToMachines;
use super::route::{Route, Whose};
use super::send::Send;
use super::setting::Setting;
use super::solved::of_pairing;
use super::state::{App, app};
use super::stay::{Stay, go_to};
use super::whose_figures::WhoseFigures;
use document::Block;
use document::sheet as told;
use fit::{Pairing, Stage, Verdict};
use leptos::html::Div;
use leptos::prelude::*;
use record::RecentEntry;
use std::sync::Arc;
use table::{Carrier, Head};

/// The screen.
#[component]
pub fn Sheet(carrier: String, head: String) -> impl IntoView {
    of_pairing(carrier, head, "Sheet", |loaded, machine, attachment| {
        view! { <Whole loaded machine attachment/> }.into_any()
    })
}

/// The parts of a sheet that the line in sight leads to.
const PARTS: [(&str, &str); 13] = [
    ("danger", "Danger"),
    ("settling", "What would settle it"),
    ("changes", "Changes"),
    ("to-prove", "What to prove"),
    ("prove-to-prove", "What to prove"),
    ("checks-checks", "Checks"),
    ("circuit-part", "The circuit"),
    ("oil-part", "Oil, day of work, lift"),
    ("typed-part", "Typed figures"),
    ("arrives-part", "What arrives"),
    ("rest-questions", "Questions, remarks, sources"),
    ("ask", "Ask your dealer"),
    ("send", "Send a link"),
];

/// What the parts of a sheet are about.
#[derive(Clone, Copy)]
struct About {
    app: App,
    pairing: RwSignal<Arc<Pairing>>,
    /// Machine and attachment as they stand today.
    pair: StoredValue<(Carrier, Head)>,
}

impl About {
    /// What the core says in a part of the sheet, in the reader's words.
    fn tell<R>(self, part: impl FnOnce(told::Sheet) -> R) -> R {
        let words = self.app.words();
        self.pairing.with(|pairing| {
            self.pair
                .with_value(|(machine, attachment)| part(told::Sheet { words: &words, pairing, machine, attachment }))
        })
    }

    /// A part as a document that follows the reader's units.
    fn blocks<R>(self, part: fn(told::Sheet) -> R) -> Signal<Vec<Block>>
    where
        R: IntoIterator<Item = Block> + 'static,
    {
        Signal::derive(move || self.tell(part).into_iter().collect())
    }
}

#[component]
fn Whole(loaded: Arc<Loaded>, machine: Carrier, attachment: Head) -> impl IntoView {
    let app = app();
    let pairing = app.pairing(&loaded, &machine, &attachment);
    let machine_name = label(machine.maker.as_ref(), &machine.model);
    let head_name = label(attachment.maker.as_ref(), &attachment.model);
    app.host.title(&format!("{head_name} on {machine_name}"));
    app.note_recent(RecentEntry {
        carrier: machine.id.to_string(),
        head: Some(attachment.id.to_string()),
        name: format!("{head_name} on {machine_name}"),
    });
    let circuit = machine
        .circuits
        .iter()
        .find(|circuit| pairing.circuit.as_ref() == Some(&circuit.id))
        .filter(|_| machine.circuits.len() > 1)
        .map(|circuit| circuit.name.clone().unwrap_or_else(|| circuit.id.to_string()));
    let (stored, told) = (StoredValue::new(pairing.clone()), RwSignal::new(pairing.clone()));
    let setting = StoredValue::new(Setting::new(&pairing, &machine, &attachment, loaded.conditions.clone()));
    let about = About { app, pairing: told, pair: StoredValue::new((machine.clone(), attachment.clone())) };
    let stage = RwSignal::new(if pairing.changed.is_some() { Stage::AfterChanges } else { Stage::AsItIs });
    // For the page around an element.
    app.host.tell("verdict", pairing.to_json());
    let sheet = NodeRef::new();
    open_on_paper(sheet);
    let shows = move |part: Part| move || app.shows(part);
    view! {
        <div class="pairing" node_ref=sheet>
            <Path machine=machine.clone() name=machine_name.clone()/>
            <Stay pairing=told sheet parts=&PARTS/>
            <h1 tabindex="-1">{head_name}<span class="on">" on "</span>{machine_name}</h1>
            <div class="sentence" part="sentence">
                <Document name="answer" blocks=about.blocks(|sheet| sheet.answer()) setting/>
                <TooHot setting/>
                <WhoseFigures carriers=vec![machine.id.to_string()]/>
                {circuit.map(|name| view! { <p class="quiet">"By the machine's circuit “"{name}"”."</p> })}
            </div>
            <Ways attachment=attachment.clone() pairing=pairing.clone() sheet/>
            <section class="danger" aria-labelledby="danger">
                <h2 id="danger">"Danger"</h2>
                <Document name="danger" blocks=about.blocks(|sheet| sheet.danger()) setting/>
            </section>
            <SettleFirst pairing=stored setting told/>
            <Show when=shows(Part::Changes)>
                <Document name="change" blocks=about.blocks(|sheet| sheet.changes()) setting/>
            </Show>
            <Document name="prove" blocks=about.blocks(|sheet| sheet.prove()) setting/>
            {app.host.is_page().then(|| view! {
                <handover::OfPairing loaded=loaded.clone() machine=machine.clone() attachment=attachment.clone() pairing=pairing.clone()/>
            })}
            <div class="folds">
                <Show when=shows(Part::Checks)>
                    <div part="checks">
                        <Document name="checks" blocks=about.blocks(|sheet| Some(Block::Fold(sheet.checks()))) setting/>
                    </div>
                </Show>
                <Show when=shows(Part::Circuit)><Circuit about stored setting stage/></Show>
                <Document name="rest" blocks=about.blocks(|sheet| Some(Block::Fold(sheet.rest()))) setting/>
            </div>
            <Sending loaded=loaded.clone() told/>
            <TitleBlock loaded machine attachment/>
        </div>
    }
}

/// Where the sheet stands among the screens.
#[component]
fn Path(machine: Carrier, name: String) -> impl IntoView {
    let app = app();
    let id = machine.id;
    view! {
        <p class="path">{move || {
            // Where one attachment is asked about, its page leads nowhere else.
            let only = !app.host.is_page() && !app.shows(Part::Machines)
                && app.host.settings.with(|settings| settings.head.is_some());
            (!only).then(|| view! {
                {app.shows(Part::Machines).then(|| view! { <PathToMachines/>" / " })}
                <a href=app.href(&Route::machine(id.as_str()))>{name.clone()}</a>
            })
        }}</p>
    }
}

/// What one goes on to from a sheet: the hand-over, the papers, a comparison, a message.
#[component]
#[allow(clippy::needless_pass_by_value)] // A prop is owned.
fn Ways(attachment: Head, pairing: Arc<Pairing>, sheet: NodeRef<Div>) -> impl IntoView {
    let app = app();
    let pair = (pairing.carrier.id.to_string(), pairing.head.id.to_string());
    let chosen = {
        let pair = pair.clone();
        Memo::new(move |_| app.is_ticked(&pair))
    };
    let full = move || !chosen.get() && !app.may_tick();
    let begin = (app.host.is_page() && handover::may_begin(&pairing, &attachment))
        .then(|| app.href(&Route::hand_over(&pair.0, &pair.1, None)));
    let papers =
        [Whose::Fitter, Whose::Customer].map(|whose| (app.href(&Route::paper(&pair.0, &pair.1, whose)), whose.title()));
    let add = move |_| app.turn_tick(&pair);
    view! {
        <p class="actions ways">
            {begin.map(|address| view! { <a class="button strong" href=address>"Begin a hand-over"</a> })}
            {move || app.shows(Part::Papers).then(|| {
                papers.clone().map(|(address, title)| view! { <a class="button" href=address>{title}</a> }).into_iter().collect_view()
            })}
            {move || app.shows(Part::Compare).then(|| view! {
                <button type="button" aria-pressed=move || chosen.get().to_string() disabled=full on:click=add.clone()>
                    {move || if chosen.get() { "Chosen for comparison" } else { "Choose for comparison" }}
                </button>
            })}
            {move || app.shows(Part::Share).then(|| view! {
                <button type="button" on:click=move |_| go_to(sheet, "send")>"Send"</button>
            })}
        </p>
    }
}

/// A link or a message to others. Where a dealer's page holds the sheet, asking him stands by itself.
#[component]
fn Sending(loaded: Arc<Loaded>, told: RwSignal<Arc<Pairing>>) -> impl IntoView {
    let app = app();
    let again = loaded.clone();
    let ask = move || app.shows(Part::Enquiry).then(|| view! { <Ask loaded=loaded.clone() pairing=told/> });
    let send = move || {
        app.shows(Part::Share).then(|| view! { <Send loaded=again.clone() pairings=vec![told.get_untracked()]/> })
    };
    view! { <div class="sending">{ask}{send}</div> }
}

/// What the circuit does: drawn, against the brochure, over the oil's temperature, and at each solved point.
#[component]
fn Circuit(
    about: About,
    stored: StoredValue<Arc<Pairing>>,
    setting: StoredValue<Setting>,
    stage: RwSignal<Stage>,
) -> impl IntoView {
    let words = move || about.app.words();
    let brochure = setting.with_value(|setting| setting.look(Stage::AsItIs, |i| i.brochure()).flatten());
    let against = brochure.map(|brochure| Signal::derive(move || words().brochure_in_short(&brochure)));
    let last = setting.with_value(|setting| *setting.stages().last().unwrap_or(&Stage::AsItIs));
    let settles = Signal::derive(move || {
        let warmth = setting.with_value(|setting| setting.warmth(last));
        about.pairing.with(|pairing| words().oil_in_short(pairing, warmth.as_ref()))
    });
    let drawn = Signal::derive(move || words().circuit_is_drawn(last).to_owned());
    let arrives = Signal::derive(move || about.tell(|sheet| sheet.arrives_at_work()));
    let any = setting.with_value(|setting| setting.look(Stage::AsItIs, |_| ()).is_some());
    let own = about.pair.with_value(|(machine, _)| app().plate(machine.id.as_str()));
    let own = own.filter(|_| about.pairing.with_untracked(|pairing| pairing.verdict != Verdict::CannotSay));
    view! {
        <Fold id="circuit-part" name="The circuit" summary=drawn>
            <CircuitDrawing pairing=stored setting stage/>
        </Fold>
        {against.map(|against| view! {
            <Fold id="brochure-part" name="Brochure against circuit" summary=against>
                <BrochureStrip setting/>
                <CurveDrawing setting stage/>
            </Fold>
        })}
        {any.then(|| view! {
            <Fold id="oil-part" name="Oil, day of work, lift" summary=settles>
                <Document name="warm-up" blocks=about.blocks(|sheet| sheet.warm_up()) setting/>
                <Thermometer setting stage/>
                <WarmingDrawing setting stage/>
                <LiftDrawing setting stage/>
            </Fold>
        })}
        {own.map(|plate| view! { <typed::Typed plate pair=about.pair/> })}
        {move || (!arrives.get().is_empty()).then(|| view! {
            <Fold id="arrives-part" name="What arrives, by oil and load" summary=arrives>
                <Arrivals about setting stage/>
            </Fold>
        })}
    }
}

/// The solved points of the machine as it is or as it will be.
#[component]
fn Arrivals(about: About, setting: StoredValue<Setting>, stage: RwSignal<Stage>) -> impl IntoView {
    let stages = setting.with_value(Setting::stages);
    let blocks = Signal::derive(move || {
        let stage = stage.get();
        about.tell(|sheet| sheet.arrivals(stage))
    });
    view! {
        {(stages.len() > 1).then(|| view! {
            <p class="actions" role="group" aria-label="Before or after the changes">
                {stages.iter().map(|&one| view! {
                    <button type="button" aria-pressed=move || (stage.get() == one).to_string()
                        on:click=move |_| stage.set(one)>{about.app.words().stage(one)}</button>
                }).collect_view()}
            </p>
        })}
        <Document name="arrives" blocks setting/>
    }
}

/// What this sheet is about and what it rests on, as at the foot of a drawing: on paper, as a screen says it elsewhere.
#[component]
fn TitleBlock(loaded: Arc<Loaded>, machine: Carrier, attachment: Head) -> impl IntoView {
    let date = loaded.table.date.map(|date| format!(", {}", super::time::day(&date.to_string()))).unwrap_or_default();
    view! {
        <dl class="block on-paper">
            <div><dt>"Machine"</dt><dd>{label(machine.maker.as_ref(), &machine.model)}</dd></div>
            <div><dt>"Attachment"</dt><dd>{label(attachment.maker.as_ref(), &attachment.model)}</dd></div>
            <div><dt>"Table"</dt><dd>{loaded.table.title.clone()}{date}</dd></div>
        </dl>
    }
}
