//! A document as elements.

use document::{Block, Cell, Fact, Fold, Form, Line, Look, Row, Slot, Span, Step, Title};
use drawing::{Picture, Stroke};
use fit::{Outcome, Verdict};
use leptos::prelude::document as page;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys::{Element, Node, SvgElement};
use quantity::Named;
use wording::SafetySign;

/// Pixels of a drawing for one unit of the page's text: drawings grow with the text.
const PIXELS: f64 = 16.0;

const SVG: &str = "http://www.w3.org/2000/svg";

/// The reasoning that is open.
pub struct Opened {
    /// The place of its figure among those of the document.
    pub at: usize,
    /// Its name.
    pub title: &'static str,
    /// What it says.
    pub blocks: Vec<Block>,
}

/// Draws a document.
pub struct Drawn {
    name: &'static str,
    figures: usize,
    opened: Option<Opened>,
}

impl Drawn {
    /// The document in an element of its own.
    pub fn of(blocks: &[Block], name: &'static str, opened: Option<Opened>) -> Element {
        let root = element("div", "");
        Self { name, figures: 0, opened }.blocks(&root, blocks);
        root
    }

    fn blocks(&mut self, to: &Element, blocks: &[Block]) {
        for block in blocks {
            self.block(to, block);
        }
    }

    fn block(&mut self, to: &Element, block: &Block) {
        match block {
            Block::Heading { level, text } => {
                add(to, &heading(*level), "").set_text_content(Some(text));
            }
            Block::Text { look, spans } => {
                let paragraph = add(to, "p", class(*look));
                self.line(&paragraph, to, spans);
            }
            Block::Facts { look, facts } => {
                let list = add(to, "dl", class(*look));
                for Fact { name, says } in facts {
                    let row = add(&list, "div", "");
                    add(&row, "dt", "").set_text_content(Some(name));
                    let said = add(&row, "dd", "");
                    self.line(&said, &said, says);
                }
            }
            Block::Lines { look: look @ Look::Total, lines, .. } => {
                let total = add(to, "div", class(*look));
                for line in lines {
                    self.line_of_paper(&total, line);
                }
            }
            Block::Lines { look, ordered, lines } => {
                let list = add(to, if *ordered { "ol" } else { "ul" }, class(*look));
                for line in lines {
                    let item = add(&list, "li", "");
                    if *look == Look::Paper {
                        self.line_of_paper(&item, line);
                    } else {
                        self.line_of_list(&item, line);
                    }
                }
            }
            Block::List { look, ordered, items } => {
                let list = add(to, if *ordered { "ol" } else { "ul" }, class(*look));
                for item in items {
                    self.blocks(&add(&list, "li", ""), item);
                }
            }
            Block::Fold(fold) => self.fold(to, fold),
            Block::Picture { picture: shapes, said } => {
                let frame = add(to, "div", "drawing of-check");
                append(&frame, &picture(shapes, "plot-of-check", said));
            }
            Block::Steps(steps) => self.steps(to, steps),
            Block::Form(form) => self.form(to, form),
            Block::Together(inside) => self.blocks(&add(to, "div", "together"), inside),
            Block::Page { look, inside } => {
                let page = add(to, "section", format!("page {}", class(*look)).trim_end());
                if *look == Look::Large {
                    // What is wider than the screen is scrolled by keys too.
                    for (attribute, value) in [("tabindex", "0"), ("role", "region"), ("aria-label", "Drawing")] {
                        set(&page, attribute, value);
                    }
                }
                self.blocks(&page, inside);
            }
            Block::Logo(address) => {
                let logo = add(to, "img", "logo");
                set(&logo, "src", address);
                set(&logo, "alt", "");
            }
            Block::Table { name, head, rows, foot } => self.table(to, name, head, (rows, foot)),
            Block::Part { title, part, inside } => self.part(to, title, part, inside),
        }
    }

    fn line_of_list(&mut self, item: &Element, line: &Line) {
        let Line { sign: before, name, figure, detail, outcome } = line;
        if let Some(before) = before {
            append(item, &sign(*before));
        }
        if let Some(outcome) = outcome {
            item.set_class_name(&format!("check {}", outcome.name()));
        }
        let figured = if outcome.is_some() { "outcome" } else { "fig" };
        for (class, spans) in [("name", name), (figured, figure), ("sub", detail)] {
            // Read aloud, or copied, they are words of their own.
            append(item, &page().create_text_node(" "));
            self.said(item, "span", class, spans);
        }
        self.panel(item);
    }

    fn line_of_paper(&mut self, item: &Element, line: &Line) {
        let Line { sign: before, name, figure, detail, .. } = line;
        let whole = add(item, "p", "line");
        if let Some(before) = before {
            append(&whole, &sign(*before));
        }
        self.said(&whole, "span", "name", name);
        self.said(&whole, "span", "value", figure);
        self.said(item, "p", "detail", detail);
        self.panel(item);
    }

    /// Steps with their numbers, a box each, and what each waits for.
    fn steps(&mut self, to: &Element, steps: &[Step]) {
        let list = add(to, "ol", "steps");
        for Step { number, after, line } in steps {
            let item = add(&list, "li", "");
            set(&item, "value", &number.to_string());
            tick(&item);
            add(&item, "span", "no").set_text_content(Some(&number.to_string()));
            let said = add(&item, "div", "");
            self.line_of_paper(&said, line);
            let waits = after.map(|after| format!("after {after}")).unwrap_or_default();
            add(&item, "span", "after").set_text_content(Some(&waits));
        }
    }

    fn form(&mut self, to: &Element, form: &Form) {
        let frame = add(to, "div", "scroll");
        for (attribute, value) in [("tabindex", "0"), ("role", "region"), ("aria-label", &form.name[..])] {
            set(&frame, attribute, value);
        }
        let table = add(&frame, "table", "form");
        let names = add(&add(&table, "thead", ""), "tr", "");
        for name in &form.head {
            // Over boxes to tick there is nothing to say.
            let at = add(&names, if name.is_empty() { "td" } else { "th" }, "");
            if !name.is_empty() {
                set(&at, "scope", "col");
                at.set_text_content(Some(name));
            }
        }
        for (part, rows) in [("tbody", &form.rows), ("tfoot", &form.foot)] {
            if rows.is_empty() {
                continue;
            }
            let part = add(&table, part, "");
            for row in rows {
                let at = add(&part, "tr", "");
                for slot in row {
                    self.slot(&at, slot);
                }
                if self.opened.as_ref().is_some_and(|opened| opened.at < self.figures) {
                    let opened = add(&add(&part, "tr", "opened"), "td", "");
                    set(&opened, "colspan", &form.head.len().to_string());
                    self.panel(&opened);
                }
            }
        }
    }

    fn slot(&mut self, row: &Element, slot: &Slot) {
        match slot {
            Slot::Says(spans) => self.spans(&add(row, "td", ""), spans),
            Slot::More(spans, more) => {
                let at = add(row, "td", "");
                self.spans(&add(&at, "span", "name"), spans);
                if !more.is_empty() {
                    add(&at, "span", "sub").set_text_content(Some(more));
                }
            }
            Slot::Blank => {
                add(row, "td", "blank");
            }
            Slot::Tick => tick(&add(row, "td", "")),
        }
    }

    /// An element with spans; none where there are none.
    fn said(&mut self, to: &Element, tag: &str, class: &str, spans: &[Span]) {
        if !spans.is_empty() {
            let at = add(to, tag, class);
            self.spans(&at, spans);
        }
    }

    fn fold(&mut self, to: &Element, fold: &Fold) {
        let Fold { id, look, level, number, name, summary, figures, inside } = fold;
        let part = add(to, "details", &format!("fold {}", class(*look)));
        part.set_id(&format!("{}-{id}", self.name));
        let line = add(&part, "summary", "");
        if let Some(number) = number {
            add(&line, "span", "no").set_text_content(Some(&number.to_string()));
        }
        let tag = level.map_or_else(|| "span".to_owned(), heading);
        add(&line, &tag, "name").set_text_content(Some(name));
        if !summary.is_empty() {
            add(&line, "span", "sum").set_text_content(Some(summary));
        }
        if !figures.is_empty() {
            let at = add(&line, "span", "fig");
            for (place, text) in figures.iter().enumerate() {
                add(&at, "span", if place == 0 { "" } else { "h" }).set_text_content(Some(text));
            }
        }
        self.blocks(&add(&part, "div", "within"), inside);
    }

    fn table(&mut self, to: &Element, name: &str, head: &[Cell], (rows, foot): (&[Row], &[Row])) {
        let frame = add(to, "div", "scroll");
        for (attribute, value) in [("tabindex", "0"), ("role", "region"), ("aria-label", name)] {
            set(&frame, attribute, value);
        }
        let table = add(&frame, "table", "compare");
        let names = add(&add(&table, "thead", ""), "tr", "");
        add(&names, "td", "");
        for cell in head {
            let at = add(&names, "th", "");
            set(&at, "scope", "col");
            for (place, line) in cell.lines.iter().enumerate() {
                let within = match &cell.to {
                    Some(address) if place == 0 => {
                        let link = add(&at, "a", "");
                        set(&link, "href", address);
                        link
                    }
                    _ => at.clone(),
                };
                self.spans(&within, line);
            }
        }
        for (part, rows) in [("tbody", rows), ("tfoot", foot)] {
            let part = add(&table, part, "");
            for row in rows {
                self.row(&part, row, head.len() + 1);
            }
        }
    }

    fn row(&mut self, to: &Element, row: &Row, columns: usize) {
        let at = add(to, "tr", if row.differs { "differs" } else { "" });
        let name = add(&at, "th", "");
        set(&name, "scope", "row");
        name.set_text_content(Some(&row.name));
        if row.differs {
            add(&name, "span", "unseen").set_text_content(Some(", differs"));
        }
        for cell in &row.cells {
            let at = add(&at, "td", "");
            if let Some(verdict) = cell.mark {
                append(&at, &mark(verdict));
            }
            if cell.is_list {
                let list = add(&at, "ol", "");
                for line in &cell.lines {
                    self.spans(&add(&list, "li", ""), line);
                }
            } else {
                let class = cell.outcome.map_or(if cell.mark.is_some() { "verdict" } else { "" }, Outcome::name);
                for line in &cell.lines {
                    self.spans(&add(&at, "span", class), line);
                }
            }
            if let Some(margin) = &cell.margin {
                append(&at, &plain(margin));
            }
        }
        if self.opened.as_ref().is_some_and(|opened| opened.at < self.figures) {
            let opened = add(&add(to, "tr", "opened"), "td", "");
            set(&opened, "colspan", &columns.to_string());
            self.panel(&opened);
        }
    }

    fn part(&mut self, to: &Element, title: &Title, name: &str, inside: &[Block]) {
        let section = add(to, "section", "");
        set(&section, "aria-labelledby", title.id);
        if !name.is_empty() {
            set(&section, "part", name);
        }
        let head = add(&section, "h2", "");
        head.set_id(title.id);
        head.set_text_content(Some(&title.text));
        if !title.aside.is_empty() {
            add(&head, "span", "aside").set_text_content(Some(&title.aside));
        }
        self.blocks(&section, inside);
    }

    /// The spans of a line, and what is open of them behind it.
    fn line(&mut self, at: &Element, behind: &Element, spans: &[Span]) {
        let first = self.figures;
        self.spans(at, spans);
        if self.opened.as_ref().is_some_and(|opened| (first..self.figures).contains(&opened.at)) {
            self.panel(behind);
        }
    }

    fn spans(&mut self, to: &Element, spans: &[Span]) {
        for span in spans {
            match span {
                Span::Text(text) => append(to, &page().create_text_node(text)),
                Span::Strong(text) => add(to, "strong", "").set_text_content(Some(text)),
                Span::Quiet(text) => add(to, "span", "quiet").set_text_content(Some(text)),
                Span::Figure { text, .. } => self.opener(to, "number", text),
                Span::Opens { text, about, .. } => {
                    self.opener(to, "how quiet no-print", text);
                    if let Some(button) = to.last_element_child() {
                        add(&button, "span", "unseen").set_text_content(Some(&format!(": {about}")));
                    }
                }
            }
        }
    }

    fn opener(&mut self, to: &Element, look: &str, text: &str) {
        let at = self.figures;
        self.figures += 1;
        let is_open = self.opened.as_ref().is_some_and(|opened| opened.at == at);
        let button = add(to, "button", look);
        set(&button, "type", "button");
        set(&button, "data-figure", &at.to_string());
        set(&button, "aria-expanded", if is_open { "true" } else { "false" });
        set(&button, "aria-controls", &format!("{}-why", self.name));
        button.set_text_content(Some(text));
    }

    /// What is open, once, where its figure has just been drawn.
    fn panel(&mut self, to: &Element) {
        let Some(opened) = self.opened.take_if(|opened| opened.at < self.figures) else { return };
        let panel = add(to, "div", "why");
        panel.set_id(&format!("{}-why", self.name));
        set(&panel, "role", "group");
        set(&panel, "aria-label", opened.title);
        add(&panel, "p", "name").set_text_content(Some(opened.title));
        // Its figures do not open: they are none of the document's.
        let figures = self.figures;
        self.blocks(&panel, &opened.blocks);
        self.figures = figures;
        let close = add(&panel, "button", "quiet no-print");
        set(&close, "type", "button");
        set(&close, "data-close", "");
        close.set_text_content(Some("Close"));
    }
}

/// A box to be ticked by hand.
fn tick(to: &Element) {
    let at = add(to, "span", "to-tick");
    set(&at, "role", "img");
    set(&at, "aria-label", "to tick");
}

fn heading(level: u8) -> String {
    format!("h{level}")
}

fn class(look: Look) -> &'static str {
    if look == Look::Plain { "" } else { look.name() }
}

/// An element by itself.
fn element(tag: &str, class: &str) -> Element {
    let made = page().create_element(tag).unwrap_or_else(|_| unreachable!("{tag} is a name for an element"));
    if !class.is_empty() {
        made.set_class_name(class);
    }
    made
}

/// An element at the end of another.
fn add(to: &Element, tag: &str, class: &str) -> Element {
    let made = element(tag, class);
    append(to, &made);
    made
}

fn append(to: &Element, node: &Node) {
    // Only a node that would hold itself is refused.
    let _ = to.append_child(node);
}

fn set(to: &Element, name: &str, value: &str) {
    // Only what is no name is refused.
    let _ = to.set_attribute(name, value);
}

fn drawn(tag: &str) -> Element {
    page().create_element_ns(Some(SVG), tag).unwrap_or_else(|_| unreachable!("{tag} is a name for a shape"))
}

fn path(to: &Element, d: &str, stroke: Stroke) {
    let shape = drawn("path");
    set(&shape, "d", d);
    set(&shape, "class", stroke.name());
    append(to, &shape);
}

/// A safety sign with its number in the register.
fn sign(sign: SafetySign) -> Element {
    let frame = drawn("svg");
    for (name, value) in [("class", "mark sign"), ("viewBox", "0 0 24 24"), ("role", "img")] {
        set(&frame, name, value);
    }
    set(&frame, "aria-label", &sign.reference());
    for (d, stroke) in drawing::sign(sign).paths {
        path(&frame, d, stroke);
    }
    frame
}

/// The joint mark of a verdict, whose words stand beside it.
fn mark(verdict: Verdict) -> Element {
    let frame = drawn("svg");
    for (name, value) in
        [("class", "mark"), ("viewBox", "0 0 32 24"), ("width", "32"), ("height", "24"), ("aria-hidden", "true")]
    {
        set(&frame, name, value);
    }
    for (d, stroke) in drawing::mark(verdict).paths {
        path(&frame, d, stroke);
    }
    frame
}

/// A margin as a dimension line, whose numbers stand beside it.
fn plain(picture: &Picture) -> Element {
    let frame = drawn("svg");
    set(&frame, "class", "margin drawing");
    set(&frame, "viewBox", &format!("0 0 {} {}", picture.width, picture.height));
    set(&frame, "aria-hidden", "true");
    for shape in &picture.paths {
        path(&frame, &shape.d, shape.stroke);
    }
    frame
}

/// A picture as SVG. Its words stand beside it, so what is written in it is hidden from screen readers.
fn picture(picture: &Picture, class: &str, said: &str) -> Element {
    let frame = drawn("svg");
    let (width, height) = (picture.width, picture.height);
    set(&frame, "class", class);
    set(&frame, "viewBox", &format!("0 0 {width:.2} {height:.2}"));
    set(&frame, "role", "img");
    set(&frame, "aria-label", said);
    if let Some(frame) = frame.dyn_ref::<SvgElement>() {
        let least = 0.8 * width / PIXELS;
        let style = frame.style();
        // Only what is no property is refused.
        let _ = style.set_property("inline-size", &format!("calc({:.3} * var(--pairwright-rem))", width / PIXELS));
        let _ = style.set_property("max-inline-size", &format!("max(100%, {least:.3} * var(--pairwright-rem))"));
    }
    for shape in &picture.paths {
        path(&frame, &shape.d, shape.stroke);
    }
    for text in &picture.texts {
        let shape = drawn("text");
        set(&shape, "x", &text.at.x.to_string());
        set(&shape, "y", &text.at.y.to_string());
        set(&shape, "text-anchor", text.anchor.name());
        set(&shape, "class", text.face.name());
        shape.set_text_content(Some(&text.text));
        append(&frame, &shape);
    }
    frame
}
