//! Where on a machine a figure of its spec plate is read: our own sketches, with a letter at each figure. What a letter stands for stands
//! in words beside its field.

use super::shape::{Anchor, Picture, Point, Stroke, circle, through};
use super::text::Face;
use record::plate::Figure;
use wording::Words;

/// A sketch of a place, with the figures that are read there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// The machine's plate.
    Plate,
    /// The end of the arm, where the auxiliary lines end.
    Lines,
    /// The pins at the end of the arm.
    Pins,
    /// The print on a hose.
    Hose,
    /// The hose couplings by their kind.
    Couplings,
    /// The lift chart in the cab.
    LiftChart,
    /// What a tape measures between slew axis, tracks and boom.
    UnderBoom,
}

impl Place {
    /// Every place.
    pub const ALL: [Self; 7] =
        [Self::Plate, Self::Lines, Self::Pins, Self::Hose, Self::Couplings, Self::LiftChart, Self::UnderBoom];

    /// The place at which a figure is read, where there is a sketch of it.
    pub fn of(figure: Figure) -> Option<Self> {
        Self::ALL.into_iter().find(|place| place.at(figure).is_some())
    }

    /// The letter of a figure in the sketch; none where the sketch shows kinds by their names.
    pub fn letter(self, figure: Figure) -> Option<char> {
        let at = self.at(figure).filter(|_| self != Self::Couplings)?;
        ['A', 'B', 'C'].get(at).copied()
    }

    fn at(self, figure: Figure) -> Option<usize> {
        self.figures().iter().position(|all| all.contains(&figure))
    }

    /// The figures at each letter in turn.
    fn figures(self) -> &'static [&'static [Figure]] {
        match self {
            Self::Plate => &[&[Figure::OperatingMass], &[Figure::EnginePower]],
            Self::Lines => &[&[Figure::Flow, Figure::Ways, Figure::ReturnRoute]],
            Self::Pins => &[&[Figure::Pin], &[Figure::StickWidth], &[Figure::PinCentres]],
            Self::Hose => &[
                &[Figure::SupplyStandard, Figure::ReturnStandard],
                &[Figure::SupplyBore, Figure::ReturnBore, Figure::CaseBore],
                &[Figure::SupplyRating, Figure::ReturnRating],
            ],
            Self::Couplings => &[&[Figure::CouplingStandard]],
            Self::LiftChart => &[&[Figure::LiftReach], &[Figure::LiftMass]],
            Self::UnderBoom => &[&[Figure::TippingEdge], &[Figure::BoomFoot]],
        }
    }

    /// The sketch.
    pub fn picture(self, words: &Words) -> Picture {
        let mut sketch = Sketch(Picture { width: 328.0, height: 150.0, ..Picture::default() });
        match self {
            Self::Plate => sketch.plate(words),
            Self::Lines => sketch.lines(),
            Self::Pins => sketch.pins(),
            Self::Hose => sketch.hose(),
            Self::Couplings => sketch.couplings(words),
            Self::LiftChart => sketch.lift_chart(),
            Self::UnderBoom => sketch.under_boom(),
        }
        sketch.0
    }
}

fn at(x: f64, y: f64) -> Point {
    Point { x, y }
}

struct Sketch(Picture);

impl Sketch {
    fn line(&mut self, points: &[(f64, f64)], stroke: Stroke) {
        let points: Vec<_> = points.iter().map(|&(x, y)| at(x, y)).collect();
        self.0.path(through(&points, false), stroke);
    }

    fn shape(&mut self, points: &[(f64, f64)], stroke: Stroke) {
        let points: Vec<_> = points.iter().map(|&(x, y)| at(x, y)).collect();
        self.0.path(through(&points, true), stroke);
    }

    fn box_of(&mut self, (left, top): (f64, f64), (right, bottom): (f64, f64), stroke: Stroke) {
        self.shape(&[(left, top), (right, top), (right, bottom), (left, bottom)], stroke);
    }

    fn round(&mut self, (x, y): (f64, f64), radius: f64, stroke: Stroke) {
        self.0.path(circle(at(x, y), radius), stroke);
    }

    /// A letter in a ring, with a leader from what it stands at.
    fn letter(&mut self, letter: char, (x, y): (f64, f64), from: (f64, f64)) {
        self.line(&[from, (x, y)], Stroke::Thin);
        self.round(from, 2.2, Stroke::Solid);
        self.round((x, y), 12.0, Stroke::Face);
        self.0.text(x, y + 4.3, Anchor::Middle, Face::Word, letter.to_string());
    }

    /// A dimension between two places, with ticks at both ends.
    fn dimension(&mut self, from: (f64, f64), to: (f64, f64)) {
        self.line(&[from, to], Stroke::Heavy);
        let level = (from.1 - to.1).abs() < f64::EPSILON;
        for (x, y) in [from, to] {
            let (dx, dy) = if level { (0.0, 6.0) } else { (6.0, 0.0) };
            self.line(&[(x - dx, y - dy), (x + dx, y + dy)], Stroke::Thin);
        }
    }

    fn plate(&mut self, words: &Words) {
        self.box_of((4.0, 6.0), (262.0, 144.0), Stroke::Face);
        for corner in [(14.0, 16.0), (252.0, 16.0), (14.0, 134.0), (252.0, 134.0)] {
            self.round(corner, 4.0, Stroke::Thin);
        }
        for (row, line) in words.lines_of_a_plate().into_iter().enumerate() {
            let y = 40.0 + 29.0 * row as f64;
            self.0.text(34.0, y - 6.0, Anchor::Start, Face::Word, line);
            self.line(&[(34.0, y), (232.0, y)], Stroke::Hair);
        }
        self.letter('A', (304.0, 92.0), (228.0, 92.0));
        self.letter('B', (304.0, 121.0), (228.0, 121.0));
    }

    /// The machine that a sketch stands on: tracks, house and cab, with the boom's foot at 126, 92.
    fn machine(&mut self) {
        self.line(&[(10.0, 140.0), (318.0, 140.0)], Stroke::Thin);
        self.shape(
            &[(34.0, 114.0), (146.0, 114.0), (156.0, 127.0), (146.0, 140.0), (34.0, 140.0), (24.0, 127.0)],
            Stroke::Face,
        );
        for x in [40.0, 140.0] {
            self.round((x, 127.0), 8.0, Stroke::Thin);
        }
        self.box_of((76.0, 106.0), (104.0, 114.0), Stroke::Face);
        self.shape(
            &[(28.0, 76.0), (80.0, 76.0), (80.0, 44.0), (112.0, 44.0), (132.0, 86.0), (132.0, 106.0), (28.0, 106.0)],
            Stroke::Face,
        );
        self.shape(&[(86.0, 50.0), (108.0, 50.0), (120.0, 76.0), (86.0, 76.0)], Stroke::Thin);
    }

    fn lines(&mut self) {
        self.machine();
        self.shape(
            &[(124.0, 88.0), (172.0, 20.0), (236.0, 30.0), (232.0, 40.0), (178.0, 34.0), (136.0, 96.0)],
            Stroke::Face,
        );
        self.shape(&[(226.0, 26.0), (240.0, 28.0), (268.0, 104.0), (256.0, 108.0)], Stroke::Face);
        self.line(&[(116.0, 84.0), (168.0, 12.0), (244.0, 22.0), (276.0, 88.0)], Stroke::Heavy);
        for x in [270.0, 278.0] {
            self.line(&[(x - 4.0, 88.0), (x + 4.0, 84.0)], Stroke::Heavy);
        }
        self.round((272.0, 90.0), 17.0, Stroke::Dashed);
        self.letter('A', (308.0, 52.0), (284.0, 78.0));
    }

    fn pins(&mut self) {
        // From the side: the stick's end with its two eyes.
        self.shape(
            &[(10.0, 14.0), (92.0, 34.0), (128.0, 76.0), (112.0, 104.0), (70.0, 84.0), (4.0, 44.0)],
            Stroke::Face,
        );
        for eye in [(76.0, 54.0), (110.0, 88.0)] {
            self.round(eye, 10.0, Stroke::Face);
            self.round(eye, 6.0, Stroke::Solid);
        }
        self.line(&[(62.0, 68.0), (96.0, 102.0)], Stroke::Heavy);
        self.letter('A', (130.0, 30.0), (82.0, 50.0));
        self.letter('C', (52.0, 118.0), (80.0, 86.0));
        // From the front: the stick between the attachment's ears.
        self.box_of((212.0, 20.0), (276.0, 104.0), Stroke::Face);
        for x in [194.0, 280.0] {
            self.box_of((x, 70.0), (x + 14.0, 132.0), Stroke::Thin);
        }
        self.box_of((186.0, 82.0), (302.0, 94.0), Stroke::Face);
        self.dimension((212.0, 52.0), (276.0, 52.0));
        self.letter('B', (244.0, 26.0), (244.0, 52.0));
    }

    fn hose(&mut self) {
        self.box_of((4.0, 62.0), (324.0, 98.0), Stroke::Face);
        // What stands on a hose is a code of its standard, the same in every language.
        self.0.text(18.0, 84.0, Anchor::Start, Face::Word, "EN 853 2SN");
        self.0.text(134.0, 84.0, Anchor::Start, Face::Word, "16 (5/8)");
        self.0.text(222.0, 84.0, Anchor::Start, Face::Word, "250 BAR");
        self.letter('A', (56.0, 26.0), (56.0, 70.0));
        self.letter('B', (164.0, 26.0), (164.0, 70.0));
        self.letter('C', (250.0, 26.0), (250.0, 70.0));
        for y in [106.0, 112.0, 118.0] {
            self.line(&[(4.0, y), (324.0, y)], Stroke::Hair);
        }
    }

    fn couplings(&mut self, words: &Words) {
        let names = words.kinds_of_couplings();
        for (place, name) in names.into_iter().enumerate() {
            let x = 8.0 + 82.0 * place as f64;
            self.box_of((x + 4.0, 76.0), (x + 60.0, 104.0), Stroke::Face);
            self.box_of((x + 12.0, 64.0), (x + 52.0, 76.0), Stroke::Face);
            match place {
                // Nothing stands out of a flat face.
                0 => self.box_of((x + 18.0, 34.0), (x + 46.0, 64.0), Stroke::Face),
                // A nose with its groove, and a poppet in it; slim in series A, stout in series B.
                1 | 2 => {
                    let half = if place == 1 { 11.0 } else { 15.0 };
                    let (left, right) = (x + 32.0 - half, x + 32.0 + half);
                    self.shape(
                        &[
                            (left, 64.0),
                            (left, 52.0),
                            (left + 3.0, 48.0),
                            (left, 44.0),
                            (left + 3.0, 32.0),
                            (right - 3.0, 32.0),
                            (right, 44.0),
                            (right - 3.0, 48.0),
                            (right, 52.0),
                            (right, 64.0),
                        ],
                        Stroke::Face,
                    );
                    self.shape(&[(x + 26.0, 32.0), (x + 32.0, 24.0), (x + 38.0, 32.0)], Stroke::Solid);
                }
                // A thread, and a nut with wings.
                _ => {
                    self.box_of((x + 14.0, 34.0), (x + 50.0, 64.0), Stroke::Face);
                    for y in [40.0, 46.0, 52.0, 58.0] {
                        self.line(&[(x + 14.0, y), (x + 50.0, y + 3.0)], Stroke::Hair);
                    }
                }
            }
            self.0.text(x + 32.0, 122.0, Anchor::Middle, Face::Quiet, name);
        }
    }

    fn lift_chart(&mut self) {
        self.box_of((14.0, 12.0), (262.0, 138.0), Stroke::Face);
        for x in [76.0, 138.0, 200.0] {
            self.line(&[(x, 12.0), (x, 138.0)], Stroke::Hair);
        }
        for y in [43.0, 75.0, 106.0] {
            self.line(&[(14.0, y), (262.0, y)], Stroke::Hair);
        }
        for (place, reach) in ["2.0", "3.0", "3.6 m"].into_iter().enumerate() {
            self.0.text(107.0 + 62.0 * place as f64, 32.0, Anchor::Middle, Face::Figure, reach);
        }
        for (place, height) in ["2.0", "1.0", "0 m"].into_iter().enumerate() {
            self.0.text(45.0, 63.0 + 31.5 * place as f64, Anchor::Middle, Face::Figure, height);
        }
        for (row, masses) in
            [["–", "760", "640"], ["1 480", "930", "690"], ["1 620", "1 010", "700"]].into_iter().enumerate()
        {
            for (place, mass) in masses.into_iter().enumerate() {
                self.0.text(107.0 + 62.0 * place as f64, 63.0 + 31.5 * row as f64, Anchor::Middle, Face::Figure, mass);
            }
        }
        self.box_of((202.0, 45.0), (260.0, 73.0), Stroke::Heavy);
        self.letter('A', (304.0, 28.0), (256.0, 28.0));
        self.letter('B', (304.0, 59.0), (256.0, 59.0));
    }

    fn under_boom(&mut self) {
        // From above: tracks, house, boom to the right, the slew axis as a cross.
        for y in [14.0, 108.0] {
            self.box_of((60.0, y), (230.0, y + 28.0), Stroke::Face);
        }
        self.box_of((80.0, 34.0), (190.0, 116.0), Stroke::Face);
        self.box_of((176.0, 66.0), (318.0, 84.0), Stroke::Face);
        self.line(&[(128.0, 75.0), (152.0, 75.0)], Stroke::Chain);
        self.line(&[(140.0, 63.0), (140.0, 87.0)], Stroke::Chain);
        self.dimension((140.0, 75.0), (140.0, 136.0));
        self.dimension((140.0, 56.0), (184.0, 56.0));
        self.round((184.0, 75.0), 3.0, Stroke::Solid);
        self.letter('A', (34.0, 122.0), (140.0, 122.0));
        self.letter('B', (250.0, 32.0), (172.0, 56.0));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tests::sound;
    use quantity::{Named, UnitSystem};
    use wording::PlainNumbers;

    const WORDS: Words = Words { numbers: &PlainNumbers, units: UnitSystem::Metric };

    #[test]
    fn every_sketch_keeps_to_its_field_and_its_texts_apart() {
        for place in Place::ALL {
            sound(&format!("{place:?}"), &place.picture(&WORDS));
        }
    }

    #[test]
    fn every_letter_of_a_figure_stands_in_its_sketch() {
        for &figure in Figure::ALL {
            let Some((place, letter)) = Place::of(figure).and_then(|place| Some((place, place.letter(figure)?))) else {
                continue;
            };
            let texts = place.picture(&WORDS).texts;
            assert_eq!(texts.iter().filter(|text| text.text == letter.to_string()).count(), 1, "{figure:?}");
        }
        assert_eq!(Place::of(Figure::OperatingMass), Some(Place::Plate));
        assert_eq!(Place::of(Figure::Relief), None);
    }
}
