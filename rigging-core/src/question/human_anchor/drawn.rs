//! The picture: the people in line, each in stance and on the floor under them.

use super::super::scene::{Arc, Arrow, Dimension, Grip, Handle, Person, Pose, Role, Scene, Strand};
use super::HumanAnchor;
use super::case::Hold;
use super::list::APART;
use crate::band::Band;

impl HumanAnchor {
    pub(super) fn scene(&self, worst: &Hold, still: Band) -> Scene {
        let (to_lip, above) = (self.to_lip.value, self.above_lip.value);
        let line = self.line();
        let first = worst.placed;
        let body_at = [-to_lip, above];
        let lip = [0.0, 0.0];
        let feet = above - first.height;
        let front = feet - first.falls * (to_lip - 0.3);
        let rope = (-above / to_lip).atan();
        let held = [worst.force * rope.cos(), worst.force * rope.sin()];
        // The ground holds whatever weight and rope leave over.
        let ground = [-held[0], worst.weight - held[1]];
        let weight_at = [body_at[0] - 0.1, feet + 0.35];
        let arrow = |at, pull, role, name| Arrow { at, pull, role, name };

        // The floor from the lip back, person by person.
        let mut floor = vec![[0.0, -1.7 * 0.8 * to_lip.max(1.5)], lip, [-0.3, front.min(-0.02)], [body_at[0], feet]];
        let mut people = vec![Person { at: body_at, pose: first.stance.pose() }];
        let mut lines = vec![Strand { from: body_at, to: lip, tension: worst.force }];
        let (mut before, mut under, mut falls) = (body_at, feet, first.falls);
        for [placed, _] in line.iter().skip(1) {
            let back = before[0] - APART;
            under += placed.falls * APART;
            falls = placed.falls;
            floor.push([back, under]);
            let at = [back, under + placed.height];
            people.push(Person { at, pose: placed.stance.pose() });
            lines.push(Strand { from: at, to: before, tension: 0.0 });
            before = at;
        }
        floor.push([before[0] - 1.0, under + falls]);
        floor.reverse();

        let drop = 0.8 * to_lip.max(1.5);
        let hanging = [0.05 * drop, -drop];
        if self.is_hung() {
            people.push(Person { at: hanging, pose: Pose::Hanging });
        }
        let load = still.high();
        lines.push(Strand { from: lip, to: hanging, tension: load });
        let name = if self.is_hung() { "hanging still" } else { "at rest" };
        Scene {
            case: [
                "Drawn: the first person at the adverse end, about to be ",
                worst.way.words(),
                ". Slopes and ropes to one side are not drawn; that a rope which runs down presses them to the ground is not counted.",
            ]
            .concat(),
            rock: vec![floor],
            lines,
            people,
            forces: vec![
                arrow(body_at, held, Role::Held, "rope"),
                arrow(weight_at, [0.0, -worst.weight], Role::Load, "weight"),
                arrow(hanging, [0.0, -load], Role::Load, name),
            ],
            polygon: vec![
                arrow(weight_at, [0.0, -worst.weight], Role::Load, "weight"),
                arrow(body_at, held, Role::Held, "rope"),
                arrow(weight_at, ground, Role::OnAnchor, "ground holds"),
            ],
            angles: vec![Arc { at: body_at, from: rope, to: 0.0, name: "rope below level" }],
            lengths: vec![Dimension { from: [-to_lip, feet - 0.15], to: [0.0, feet - 0.15], name: "to the lip" }],
            handles: vec![
                Handle::new(body_at, "first person", [
                    Grip::along("to_lip_m", [-1.0, 0.0]),
                    Grip::along("above_lip_m", [0.0, 1.0]),
                ]),
                Handle::new([-0.3, front.min(-0.02)], "slope of the floor", [Grip::along(
                    "floor_falls",
                    [0.0, -1.0 / (to_lip - 0.3).max(0.3)],
                )]),
            ],
            ..Scene::default()
        }
    }
}
