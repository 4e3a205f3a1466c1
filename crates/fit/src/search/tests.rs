use super::*;
use crate::Conditions;
use crate::changes::applied;
use table::{Table, read};

/// A stream of numbers, always the same.
struct Dice(u64);

impl Dice {
    fn roll(&mut self, sides: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        usize::try_from(self.0 >> 33).expect("31 bits") % sides
    }
}

fn demo() -> Table {
    read(include_str!("../../../../public/table/demo.json")).table.expect("the demo table")
}

impl Search<'_> {
    /// This search with at most so many options of each change, so that trying all ends.
    fn thinned(mut self, most: usize) -> Self {
        for (place, admitted) in self.admitted.iter_mut().enumerate() {
            let id = |index: u8| self.sets.option(place, index).id;
            for index in std::mem::take(admitted) {
                if admitted.iter().filter(|&&known| id(known) == id(index)).count() < most {
                    admitted.push(index);
                }
            }
        }
        self
    }

    /// This search, which tries at most so many sets.
    fn giving_up_after(self, budget: usize) -> Self {
        Self { budget, ..self }
    }

    /// Every choice of the coupled slots, least cost first.
    fn every_coupled_choice(&self) -> Vec<Choice> {
        let mut choices: Vec<Choice> = vec![NOTHING];
        for place in (0..SLOTS.len()).filter(|&place| !SLOTS[place].is_separable()) {
            let options = &self.admitted[place];
            let answers = || std::iter::once(None).chain(options.iter().copied().map(Some));
            choices =
                choices.into_iter().flat_map(|choice| answers().map(move |index| choice.with(place, index))).collect();
        }
        choices.sort_by_cached_key(|choice| self.key(choice));
        choices
    }

    fn key(&self, choice: &Choice) -> (u64, u32, usize) {
        let Waiting(std::cmp::Reverse((cost, minutes, count, ..))) =
            self.waiting(choice, (0, 0, 0), false, Checks::NONE);
        (cost, minutes, count)
    }

    /// A coupled choice with the cheapest options of the slots that stand by themselves, where that makes it work.
    fn completed(&self, mut choice: Choice) -> Option<Choice> {
        let wanted = choice.filled().count();
        for round in 0..=SLOTS.len() {
            let set = self.sets.set(&choice);
            if set.made().len() < wanted + round {
                return None;
            }
            // Of the separable slots each failing check has one at the most; the coupled ones are as they are.
            let separable = |&&(place, _): &&(usize, u8)| SLOTS[place].is_separable();
            let (mut failing, mut ways) = (Vec::new(), Vec::new());
            for check in CheckId::ALL.iter().filter(|id| **id != CheckId::Heat).map(|&id| set.judge(id)) {
                if check.fails {
                    let own = self.candidates(check, &choice);
                    own.iter().find(separable)?;
                    ways.extend(own);
                    failing.push(check);
                }
            }
            let Some(check) = failing.first() else {
                return (!set.judge(CheckId::Heat).fails).then_some(choice);
            };
            let fixes = |&(place, index): &(usize, u8)| {
                let next = choice.with(place, Some(index));
                let left: Vec<_> = self.sets.plan(&next).failing().copied().collect();
                // It may bring a need of its own, for another separable slot.
                let less = left.iter().all(|failing| failing.id != check.id) || left.len() < failing.len();
                less.then_some(next)
            };
            choice = ways.iter().filter(separable).filter_map(fixes).min_by_key(|next| self.key(next))?;
        }
        None
    }

    /// Every check of a set that is made in working order on the machine as it is: nothing remembered, nothing left out.
    fn judged_plainly(&self, choice: &Choice) -> Vec<Check> {
        let machine = choice.filled().fold(self.sets.machine(&NOTHING), |machine, (place, index)| {
            applied(machine, self.sets.option(place, index)).map_or(machine, |(changed, _)| changed)
        });
        checks::outcomes(&machine.setup.facts())
    }

    fn cheapest_by_trying_all(&self) -> (Option<(u64, u32, usize)>, Option<Choice>) {
        let mut best: Option<((u64, u32, usize), Choice)> = None;
        for choice in self.every_coupled_choice() {
            // The coupled part alone costs more already.
            if best.is_some_and(|(best, _)| self.key(&choice) > best) {
                break;
            }
            let found = self.completed(choice).map(|choice| (self.key(&choice), choice));
            best = best.into_iter().chain(found).min_by_key(|(key, _)| *key);
        }
        best.unzip()
    }
}

/// A search from the checks of the machine as it is.
fn searched<'a>(store: &'a Store, setup: Setup<'a>, catalogue: &'a Catalogue) -> Search<'a> {
    Search::new(store, setup, catalogue, &checks::outcomes(&setup.facts()))
}

fn agrees(search: &Search, told: &str) -> Option<bool> {
    if !search.today.iter().any(|judged| judged.fails) {
        return None;
    }
    let found = match search.run() {
        SearchResult::Works(plan, _) => {
            let cost = plan.made.iter().map(|made| search.catalogue.cost(made.option)).sum::<u64>();
            let minutes = plan.made.iter().map(|made| made.option.minutes).sum::<u32>();
            Some((cost, minutes, plan.made.len()))
        }
        SearchResult::Nothing { .. } => None,
        SearchResult::GaveUp => panic!("{told}: not all sets were tried"),
    };
    let (tried, set) = search.cheapest_by_trying_all();
    let names = |choice: Choice| {
        choice.filled().map(|(place, index)| search.sets.option(place, index).id.name()).collect::<Vec<_>>()
    };
    assert_eq!(found, tried, "{told}: {:?}", set.map(names));
    Some(found.is_some())
}

/// Whether something stands in the way that no set can fix, so that there is nothing to try.
fn is_unfixable(search: &Search) -> bool {
    search.today.iter().any(|judged| judged.fails && search.candidates(*judged, &NOTHING).is_empty())
}

#[test]
fn invariant_the_cheapest_set_is_the_one_that_trying_all_finds() {
    let table = demo();
    let conditions = Conditions::of_table(&table);
    let catalogue = Catalogue::of(&conditions);
    let (mut mended, mut unfixable) = (0, 0);
    for (k, carrier) in table.carriers.iter().enumerate() {
        for circuit in &carrier.circuits {
            for (h, head) in table.heads.iter().enumerate() {
                // Of each machine a few, as many different ones as there are.
                if (k + h) % 3 != 0 || mended >= 34 && unfixable >= 6 || mended >= 40 {
                    continue;
                }
                let store = Store::default();
                let search =
                    searched(&store, Setup { carrier, circuit, head, conditions: &conditions }, &catalogue).thinned(1);
                if is_unfixable(&search) {
                    continue;
                }
                if unfixable >= 6 && matches!(search.run(), SearchResult::Nothing { .. }) {
                    continue;
                }
                match agrees(&search, &format!("{} with {}", carrier.id, head.id)) {
                    Some(true) => mended += 1,
                    Some(false) => unfixable += 1,
                    None => {}
                }
            }
        }
    }
    assert!(mended + unfixable >= 40 && unfixable >= 3, "{mended} mended, {unfixable} unfixable");
}

#[test]
fn so_it_is_with_facts_left_out_and_few_slots_open() {
    let table = demo();
    let conditions = Conditions::of_table(&table);
    let catalogue = Catalogue::of(&conditions);
    let mut dice = Dice(0x5eed_1234_abcd_0001);
    let (mut tried, mut mended) = (0, 0);
    // `make long`, which CI runs, tries all.
    let most = if std::env::var_os("LONG").is_some() { 2000 } else { 200 };
    for _ in 0..200_000 {
        if tried == most {
            break;
        }
        let mut carrier = table.carriers[dice.roll(table.carriers.len())].clone();
        let head = &table.heads[dice.roll(table.heads.len())];
        let Some(place) = carrier.circuits.len().checked_sub(1).map(|last| dice.roll(last + 1)) else { continue };
        let circuit = &mut carrier.circuits[place];
        match dice.roll(9) {
            0 => circuit.relief = None,
            1 => circuit.coupling = None,
            2 => circuit.return_path.route = None,
            3 => circuit.ways = None,
            4 => circuit.supply.segments.clear(),
            5 => circuit.stops_and_stays_off = None,
            6 => circuit.return_path.can_be_shut = Some(true),
            _ => {}
        }
        let circuit = carrier.circuits[place].clone();
        let setup = Setup { carrier: &carrier, circuit: &circuit, head, conditions: &conditions };
        let store = Store::default();
        let mut search = searched(&store, setup, &catalogue).thinned(2);
        // Eight slots at the most stay open, those first that something failing asks for.
        let failing = search.today.iter().filter(|judged| judged.fails);
        let ways: Vec<_> = failing.flat_map(|judged| search.candidates(*judged, &NOTHING)).collect();
        let asked = (0..SLOTS.len()).filter(|slot| ways.iter().any(|(place, _)| place == slot)).collect::<Vec<_>>();
        let keep: Vec<usize> = asked.into_iter().filter(|_| dice.roll(8) > 0).take(8).collect();
        for (slot, options) in search.admitted.iter_mut().enumerate() {
            if !keep.contains(&slot) {
                options.clear();
            }
        }
        if is_unfixable(&search) {
            continue;
        }
        if let Some(found) = agrees(&search, &format!("{} with {}, slots {keep:?}", carrier.id, head.id)) {
            tried += 1;
            mended += usize::from(found);
        }
    }
    assert!(tried == most && mended >= most / 4, "{tried} tried, {mended} mended");
}

/// What makes separable slots separable: their options leave every check as it was that they do not fix.
#[test]
fn invariant_a_separable_slot_leaves_all_other_checks_as_they_were() {
    let table = demo();
    let conditions = Conditions::of_table(&table);
    let catalogue = Catalogue::of(&conditions);
    let mut dice = Dice(0x5eed_0000_0000_0007);
    let mut compared = 0;
    for _ in 0..300 {
        let carrier = &table.carriers[dice.roll(table.carriers.len())];
        let head = &table.heads[dice.roll(table.heads.len())];
        let Some(circuit) = carrier.circuits.first() else { continue };
        let store = Store::default();
        let search = searched(&store, Setup { carrier, circuit, head, conditions: &conditions }, &catalogue);
        // On top of any set of the coupled ones.
        let options = |place: usize| u8::try_from(search.sets.slots[place].len()).expect("few");
        let choice = (0..SLOTS.len()).filter(|&place| !SLOTS[place].is_separable()).fold(NOTHING, |choice, place| {
            let any = options(place) > 0 && dice.roll(3) == 0;
            let index = any.then(|| u8::try_from(dice.roll(options(place).into())).expect("few"));
            choice.with(place, index)
        });
        let before = search.judged_plainly(&choice);
        for place in (0..SLOTS.len()).filter(|&place| SLOTS[place].is_separable()) {
            for index in 0..options(place) {
                let after = search.judged_plainly(&choice.with(place, Some(index)));
                let id = search.sets.option(place, index).id;
                // Only what something asks for is ever made.
                if !before.iter().any(|check| check.fails() && fixes(Judgement::of(check), id)) {
                    continue;
                }
                for (was, is) in before.iter().zip(&after) {
                    // What drives a door asks for wires; that is a need which follows.
                    let follows = id == ChangeId::DoorCircuit && was.id == CheckId::Electrics;
                    if follows || fixes(Judgement::of(was), id) || fixes(Judgement::of(is), id) {
                        continue;
                    }
                    let (was, is) = ((was.id, was.outcome, was.margin), (is.id, is.outcome, is.margin));
                    assert_eq!(was, is, "{} with {}: {}", carrier.id, head.id, id.name());
                    compared += 1;
                }
            }
        }
    }
    assert!(compared > 5000, "{compared}");
}

/// Whoever has not tried all sets knows of none that the others do not fit.
#[test]
fn a_search_that_gives_up_never_says_that_nothing_fits() {
    let table = demo();
    let conditions = Conditions::of_table(&table);
    let catalogue = Catalogue::of(&conditions);
    let (mut gave_up, mut after_few) = (0, 0);
    for (carrier, head) in table.carriers.iter().flat_map(|carrier| table.heads.iter().map(move |head| (carrier, head)))
    {
        let Some(circuit) = carrier.circuits.first() else { continue };
        if gave_up >= 12 {
            break;
        }
        let setup = Setup { carrier, circuit, head, conditions: &conditions };
        let store = Store::default();
        let whole = searched(&store, setup, &catalogue).run();
        if !matches!(&whole, SearchResult::Works(plan, _) if plan.made.len() > 2) {
            continue;
        }
        let told = format!("{} with {}", carrier.id, head.id);
        for budget in [1, 3] {
            let store = Store::default();
            let short = searched(&store, setup, &catalogue).giving_up_after(budget);
            match short.run() {
                SearchResult::GaveUp => {
                    assert_eq!(short.outcome().0, Verdict::CannotSay, "{told}");
                    gave_up += 1;
                }
                SearchResult::Works(..) => after_few += 1,
                SearchResult::Nothing { .. } => panic!("{told}: nothing after {budget} sets, though one works"),
            }
        }
    }
    assert!(gave_up >= 12, "{gave_up} gave up, {after_few} needed few");
}

/// What a search remembers of a set is what comes of it made in working order on the machine as it is and judged whole.
#[test]
fn invariant_what_is_remembered_of_a_set_is_what_comes_of_it() {
    let table = demo();
    let conditions = Conditions::of_table(&table);
    let catalogue = Catalogue::of(&conditions);
    let mut dice = Dice(0x5eed_0000_0000_0011);
    let (mut compared, mut made) = (0, 0);
    for _ in 0..400 {
        let carrier = &table.carriers[dice.roll(table.carriers.len())];
        let head = &table.heads[dice.roll(table.heads.len())];
        let Some(circuit) = carrier.circuits.first() else { continue };
        let store = Store::default();
        let search = searched(&store, Setup { carrier, circuit, head, conditions: &conditions }, &catalogue);
        // Several sets of one machine: they share what they have in common.
        for _ in 0..6 {
            let choice = (0..SLOTS.len()).fold(NOTHING, |choice, place| {
                let options = search.sets.slots[place].len();
                let any = options > 0 && dice.roll(3) == 0;
                choice.with(place, any.then(|| u8::try_from(dice.roll(options)).expect("few")))
            });
            let plan = search.sets.plan(&choice);
            let plainly = search.judged_plainly(&choice);
            for check in &plainly {
                let told = format!("{} with {}: {choice:?} {:?}", carrier.id, head.id, check.id);
                assert_eq!(plan.judged[check.id as usize], Judgement::of(check), "{told}");
                compared += 1;
            }
            made += plan.made.len();
        }
    }
    assert!(compared > 50_000 && made > 4000, "{compared} compared, {made} made");
}

/// How many machines a search makes of one, in half of some searches, in 99 of 100, and at the most.
fn shares(mut counts: Vec<usize>) -> (usize, usize, usize) {
    counts.sort_unstable();
    let share = |percent: usize| counts[(counts.len() - 1) * percent / 100];
    println!("of {}: half need {}, 99 of 100 {}, the most {}", counts.len(), share(50), share(99), share(100));
    (share(50), share(99), share(100))
}

/// How much a search looks into, counted: what is made of the machine for one circuit with one head.
#[test]
fn invariant_few_machines_are_made_for_any_pairing_of_the_demo() {
    let table = demo();
    let conditions = Conditions::of_table(&table);
    let catalogue = Catalogue::of(&conditions);
    let mut counts = Vec::new();
    for (carrier, head) in table.carriers.iter().flat_map(|carrier| table.heads.iter().map(move |head| (carrier, head)))
    {
        for circuit in &carrier.circuits {
            let store = Store::default();
            let search = searched(&store, Setup { carrier, circuit, head, conditions: &conditions }, &catalogue);
            assert!(!matches!(search.run(), SearchResult::GaveUp), "{} with {}", carrier.id, head.id);
            counts.push(search.sets.steps.borrow().len());
        }
    }
    let (half, most_of_them, most) = shares(counts);
    assert!(half <= 5 && most_of_them <= 1000 && most <= 2500, "{half}, {most_of_them}, {most}");
}

/// The same with machines and attachments of which some facts are left out; `make long` counts 10 000 of them.
#[test]
fn few_machines_are_made_where_facts_are_left_out() {
    let table = demo();
    let conditions = Conditions::of_table(&table);
    let catalogue = Catalogue::of(&conditions);
    let mut dice = Dice(0x5eed_2121_2121_2121);
    let (mut counts, mut gave_up) = (Vec::new(), 0);
    let most = if std::env::var_os("LONG").is_some() { 10_000 } else { 500 };
    while counts.len() < most {
        let mut carrier = table.carriers[dice.roll(table.carriers.len())].clone();
        let mut head = table.heads[dice.roll(table.heads.len())].clone();
        let Some(place) = carrier.circuits.len().checked_sub(1).map(|last| dice.roll(last + 1)) else { continue };
        for _ in 0..dice.roll(4) {
            leave_out(&mut carrier.circuits[place], &mut head, dice.roll(14));
        }
        let circuit = carrier.circuits[place].clone();
        let setup = Setup { carrier: &carrier, circuit: &circuit, head: &head, conditions: &conditions };
        let store = Store::default();
        let search = searched(&store, setup, &catalogue);
        gave_up += usize::from(matches!(search.run(), SearchResult::GaveUp));
        counts.push(search.sets.steps.borrow().len());
    }
    let (half, most_of_them, _) = shares(counts);
    assert!(half <= 10 && most_of_them <= 1500 && gave_up * 1000 <= most, "{half}, {most_of_them}, {gave_up} gave up");
}

/// Takes away one of the facts on which a search rests.
fn leave_out(circuit: &mut table::Circuit, head: &mut table::Head, which: usize) {
    match which {
        0 => circuit.relief = None,
        1 => circuit.coupling = None,
        2 => circuit.return_path.route = None,
        3 => circuit.ways = None,
        4 => circuit.supply.segments.clear(),
        5 => circuit.stops_and_stays_off = None,
        6 => circuit.return_path.line.segments.clear(),
        7 => circuit.return_path.loss = None,
        8 => circuit.flow = None,
        9 => circuit.flow_setting = None,
        10 => head.outlet.back_pressure = None,
        11 => head.outlet.case_pressure = None,
        12 => head.flow.least = None,
        _ => head.motor = None,
    }
}
