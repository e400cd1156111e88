//! The ten demonstrations: example numbers of our own, each with one quantity that moves.

use super::demo::Set::{Choose, To};
use super::demo::{Demo, Drawn, Run, Set, Stop};

const fn at(words: &'static str, value: f64) -> Stop {
    Stop { words, to: To(value) }
}

const fn choice(words: &'static str, name: &'static str) -> Stop {
    Stop { words, to: Choose(name) }
}

const fn degrees(value: f64) -> Set {
    To(value.to_radians())
}

const fn turned(value: f64) -> Stop {
    Stop { words: "", to: degrees(value) }
}

/// Two level anchors a metre apart, a load that hangs still and does not swing.
const TWO_ANCHORS: &[(&str, Set)] = &[
    ("apart_m", To(1.0)),
    ("down_m", To(0.866)),
    ("right_higher_m", To(0.0)),
    ("swing_left_rad", To(0.0)),
    ("swing_right_rad", To(0.0)),
    ("length_scatter_m", To(0.0)),
    ("state", Choose("still")),
];

/// A run that shows the first finding, with its forces.
const RUN: Run = Run { words: "", set: &[], moves: "", moved: "", stops: &[], shows: "", drawn: Drawn::Scene, why: "" };

/// The demonstrations in the order of the design.
pub(super) static TEN: [Demo; 10] = [
    Demo {
        title: "The opening angle",
        asks: "What does one of the two anchors get?",
        question: "anchor legs",
        set: TWO_ANCHORS,
        // Anchors 1 m apart: the master point lies half a metre ÷ tan of half the angle below them.
        runs: &[Run {
            moves: "down_m",
            moved: "Opening angle",
            stops: &[at("30°", 1.866), at("60°", 0.866), at("90°", 0.5), at("120°", 0.2887), at("150°", 0.134)],
            why: "Together the two legs must pull up as hard as the load pulls down. The flatter they lie, the more of their pull goes sideways, one against the other.",
            ..RUN
        }],
        formulas: &["Tension of the leg"],
    },
    Demo {
        title: "Separate legs or one closed loop",
        asks: "What does the left anchor get, and which way is it pulled?",
        question: "anchor legs",
        set: TWO_ANCHORS,
        runs: &[
            Run { words: "Opening angle 60°", ..LOOP },
            Run { words: "Opening angle 120°", set: &[("down_m", To(0.2887))], ..LOOP },
        ],
        formulas: &["Force on the anchor"],
    },
    Demo {
        title: "The load walks to one side",
        asks: "What does the left anchor get?",
        question: "anchor legs",
        set: TWO_ANCHORS,
        runs: &[
            Run {
                words: "Legs of fixed length",
                why: "The leg that the load pulls along takes over what the other gives up. Beyond half the opening angle the other one is slack and carries nothing.",
                ..ASIDE
            },
            Run {
                words: "Self-equalising sling",
                set: &[("rig", Choose("self-equalising"))],
                why: "The ring runs along the sling until both parts pull nearly alike. What is left of a difference is the friction of the ring on the sling.",
                ..ASIDE
            },
        ],
        formulas: &["Tension of the leg", "Tension of the part"],
    },
    Demo {
        title: "Four legs, one a centimetre short",
        asks: "What does the anchor that gets most get, while all four share?",
        question: "anchor legs",
        set: &[
            ("anchors", To(4.0)),
            ("apart_m", To(1.0)),
            ("down_m", To(0.8)),
            ("right_higher_m", To(0.0)),
            ("anchor_3_right_m", To(0.33)),
            ("anchor_3_above_m", To(0.0)),
            ("anchor_4_right_m", To(0.67)),
            ("anchor_4_above_m", To(0.0)),
            ("swing_left_rad", To(0.0)),
            ("swing_right_rad", To(0.0)),
            ("state", Choose("still")),
        ],
        // Each leg long or short by half of it: between the shortest and the longest lies all of it.
        runs: &[Run {
            moves: "length_scatter_m",
            moved: "One leg shorter than the others by",
            stops: &[at("nothing", 0.0), at("½ cm", 0.0025), at("1 cm", 0.005), at("2 cm", 0.01)],
            shows: "all legs sharing",
            drawn: Drawn::Lines,
            why: "Slings hardly stretch. A leg a few millimetres longer than its neighbour hangs loose while the short one already carries.",
            ..RUN
        }],
        formulas: &["each anchor, each state"],
    },
    Demo {
        title: "A leg is cut",
        asks: "What does the anchor that is left get when it catches?",
        question: "anchor legs",
        set: TWO_ANCHORS,
        runs: &[Run {
            set: &[("rig", Choose("self-equalising"))],
            moves: "knots",
            moved: "Limiter knots in the sling",
            stops: &[choice("none", "none"), choice("10 cm from the ring", "limiter")],
            shows: "hanging still before",
            drawn: Drawn::Lines,
            why: "Without knots the whole sling runs through the ring before anything catches. A longer drop brings more to be caught at once.",
            ..RUN
        }],
        formulas: &["catch after it"],
    },
    Demo {
        title: "A bend in the rope",
        asks: "What does the ring at the bend get?",
        question: "bend",
        set: &[
            ("runs", Choose("lowering")),
            ("state", Choose("still")),
            ("wet", Choose("no")),
            ("bolt", Choose("none")),
        ],
        runs: &[
            Run {
                words: "Let down, no friction counted",
                moves: "turn_1_rad",
                moved: "The rope turns by",
                stops: &[
                    turned(0.0),
                    turned(30.0),
                    turned(60.0),
                    turned(90.0),
                    turned(120.0),
                    turned(150.0),
                    turned(180.0),
                ],
                why: "The ring gets the pull of the load and the pull of the hand. The farther the rope turns back, the more the two add up: to twice the load where it comes straight back.",
                ..RUN
            },
            Run {
                words: "Then held from below",
                set: &[("turn_1_rad", degrees(180.0))],
                moves: "runs",
                moved: "Whoever holds from below",
                stops: &[
                    choice("lets rope out", "lowering"),
                    choice("holds still", "rest"),
                    choice("pulls in", "raising"),
                ],
                why: "Friction in the ring works against the way the rope wants to go. Who pulls in must pull harder than the load, who holds still may; and the ring gets both pulls.",
                ..RUN
            },
        ],
        formulas: &["force on whatever bends it", "force in the rope beyond a bend"],
    },
    Demo {
        title: "The sag of a line",
        asks: "What does the anchor that is pulled hardest get, one person hanging still?",
        question: "line",
        set: &[
            ("span_m", To(10.0)),
            ("far_higher_m", To(0.0)),
            ("wet", Choose("no")),
            ("place", To(0.5)),
            ("setting", Choose("sag")),
        ],
        runs: &[Run {
            moves: "sag",
            moved: "Sag, of the span",
            stops: &[at("20 %", 0.2), at("15 %", 0.15), at("10 %", 0.1), at("5 %", 0.05), at("2 %", 0.02)],
            shows: "hanging still",
            drawn: Drawn::Still,
            why: "Only what of the pull points up carries the person. Half the sag leaves about half of that, so the line has to pull about twice as hard.",
            ..RUN
        }],
        formulas: &["Textbook, at the solved angles"],
    },
    Demo {
        title: "A slider in the current",
        asks: "How far from the far bank does the current leave the person?",
        question: "in the current",
        set: &[
            ("tool", Choose("diagonal")),
            ("across_m", To(8.0)),
            ("down_m", To(8.0)),
            ("drift", To(0.0)),
            ("slack", To(0.0)),
        ],
        runs: &[
            Run {
                words: "A line without slack",
                moves: "down_m",
                moved: "Far end downstream by",
                stops: &[at("", 16.0), at("", 8.0), at("", 4.0), at("", 2.0)],
                why: "The current pushes straight down. The more the line lies across it, the less of that push goes along the line, until friction keeps the slider where it is.",
                ..RUN
            },
            Run {
                words: "Then slack",
                moves: "slack",
                moved: "Slack, of the straight distance",
                stops: &[at("none", 0.0), at("2 %", 0.02), at("5 %", 0.05), at("10 %", 0.1)],
                why: "The current carries the person down into the slack. From there the line ahead lies more across the current, and the slider is left earlier.",
                ..RUN
            },
        ],
        formulas: &["Where the current leaves the person", "From there to the far bank"],
    },
    Demo {
        title: "One person holds",
        asks: "How much does this person hold, at the least?",
        question: "human anchor",
        set: &[
            ("holders", To(1.0)),
            ("holder_kg", To(80.0)),
            ("seat", Choose("gravel")),
            ("floor_falls", To(0.0)),
            ("above_lip_m", To(0.0)),
            ("edge", Choose("free")),
        ],
        runs: &[
            Run {
                words: "On level gravel",
                moves: "stance",
                moved: "The person is",
                stops: &[
                    choice("standing", "feet together"),
                    choice("seated", "seated"),
                    choice("seated, feet braced", "seated braced"),
                ],
                why: "Low down, a rope cannot tip a person over so easily, and feet against a foothold push back. Who stands upright has little but balance.",
                ..RUN
            },
            Run {
                words: "Braced, the ground falling toward the drop",
                set: &[("stance", Choose("seated braced"))],
                moves: "floor_falls",
                moved: "The ground falls by",
                // As a share of the way: the tangent of the angle.
                stops: &[at("0°", 0.0), at("3°", 0.0524), at("6°", 0.1051), at("10°", 0.1763)],
                why: "On a slope some of the holder's own weight pulls toward the drop too, and less of it presses on the ground.",
                ..RUN
            },
        ],
        formulas: &["Most that a person", "Dragged at"],
    },
    Demo {
        title: "The same fall on more rope and on less",
        asks: "What does the anchor get, and the person who falls?",
        question: "slip",
        set: &[
            ("what", Choose("slack rope")),
            ("rope_m", To(8.0)),
            ("edge", Choose("free")),
            ("clear_m", To(0.0)),
            ("slack_m", To(1.0)),
        ],
        runs: &[
            Run {
                words: "The same fall, then half the rope, and half again",
                moves: "rope_m",
                moved: "Rope that catches",
                stops: &[at("", 16.0), at("", 8.0), at("", 4.0)],
                why: "All of the fall has to go into stretch. Short rope has little stretch to give, so it has to pull harder.",
                ..RUN
            },
            Run {
                words: "The same rope, then half a metre of slack",
                moves: "slack_m",
                moved: "Slack before it comes tight",
                stops: &[at("", 0.0), at("", 0.5), at("", 1.0)],
                why: "Even without slack a load that comes on at once pulls twice its weight. Whatever falls freely first brings more that the rope has to take up.",
                ..RUN
            },
        ],
        formulas: &["Peak, edge not counted"],
    },
];

/// Two legs, or a sling closed to a triangle.
const LOOP: Run = Run {
    moves: "rig",
    moved: "Rigged with",
    stops: &[choice("two separate legs", "fixed"), choice("one closed loop", "triangle")],
    why: "In a closed loop the strand from anchor to anchor is tight as well. It pulls each anchor inward, so that the anchor gets more, and more of it from the side.",
    ..RUN
};

/// The load leaves the fall line.
const ASIDE: Run = Run {
    moves: "swing_right_rad",
    moved: "Load to the right, from plumb",
    stops: &[turned(0.0), turned(10.0), turned(20.0), turned(30.0), turned(40.0)],
    ..RUN
};
