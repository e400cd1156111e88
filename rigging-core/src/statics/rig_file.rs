//! The rig file, read from JSON or any other format of serde, and written.
//!
//! A fault inside a point or a line is reported with its name, or its number until the name has
//! been read.

use std::fmt;

use serde::de::{self, Deserialize, Deserializer, IgnoredAny, MapAccess, SeqAccess, Visitor};
use serde::ser::{Serialize, SerializeMap, Serializer};

use super::answer::{Rows, numbers};
use super::rig::Rig;
use super::rig_error::RigError;
use super::rig_parts::{Line, Point, PointId};

const RIG_FIELDS: &[&str] = &["points", "lines"];
const POINT_FIELDS: &[&str] = &["name", "at_m", "held", "load_n"];
const LINE_FIELDS: &[&str] = &["name", "through", "length_m", "stiffness_n", "weight_n_per_m"];

#[derive(Default)]
struct PointRecord {
    name: Option<String>,
    at: Option<[f64; 3]>,
    held: Option<bool>,
    load: Option<[f64; 3]>,
}

#[derive(Default)]
struct LineRecord {
    name: Option<String>,
    through: Option<Vec<String>>,
    length: Option<f64>,
    stiffness: Option<f64>,
    weight: Option<f64>,
}

/// What points and lines have in common on the wire: named fields, one after the other.
trait Record: Default {
    const KIND: &'static str;
    fn name(&self) -> Option<&str>;
    fn read<'de, M: MapAccess<'de>>(&mut self, field: &str, map: &mut M) -> Result<(), M::Error>;
}

impl Record for PointRecord {
    const KIND: &'static str = "point";

    fn name(&self) -> Option<&str> {
        self.name.as_deref()
    }

    fn read<'de, M: MapAccess<'de>>(&mut self, field: &str, map: &mut M) -> Result<(), M::Error> {
        match field {
            "name" => once(&mut self.name, "name", map),
            "at_m" => once(&mut self.at, "at_m", map),
            "held" => once(&mut self.held, "held", map),
            "load_n" => once(&mut self.load, "load_n", map),
            other => Err(de::Error::unknown_field(other, POINT_FIELDS)),
        }
    }
}

impl Record for LineRecord {
    const KIND: &'static str = "line";

    fn name(&self) -> Option<&str> {
        self.name.as_deref()
    }

    fn read<'de, M: MapAccess<'de>>(&mut self, field: &str, map: &mut M) -> Result<(), M::Error> {
        match field {
            "name" => once(&mut self.name, "name", map),
            "through" => once(&mut self.through, "through", map),
            "length_m" => once(&mut self.length, "length_m", map),
            "stiffness_n" => once(&mut self.stiffness, "stiffness_n", map),
            "weight_n_per_m" => once(&mut self.weight, "weight_n_per_m", map),
            other => Err(de::Error::unknown_field(other, LINE_FIELDS)),
        }
    }
}

fn once<'de, T: Deserialize<'de>, M: MapAccess<'de>>(
    place: &mut Option<T>,
    field: &'static str,
    map: &mut M,
) -> Result<(), M::Error> {
    if place.is_some() {
        return Err(de::Error::duplicate_field(field));
    }
    let value = map.next_value();
    *place = Some(value.map_err(|error| de::Error::custom(format_args!("\"{field}\": {error}")))?);
    Ok(())
}

/// A list of records, each fault with the name or number of its record.
struct Records<R>(Vec<R>);

impl<'de, R: Record> Deserialize<'de> for Records<R> {
    fn deserialize<D: Deserializer<'de>>(source: D) -> Result<Self, D::Error> {
        struct List<R>(std::marker::PhantomData<R>);
        impl<'de, R: Record> Visitor<'de> for List<R> {
            type Value = Records<R>;

            fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(out, "a list of {}s", R::KIND)
            }

            fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Self::Value, A::Error> {
                let mut records = Vec::new();
                while let Some(record) =
                    list.next_element_seed(Numbered::<R> { number: records.len() + 1, kind: std::marker::PhantomData })?
                {
                    records.push(record);
                }
                Ok(Records(records))
            }
        }
        source.deserialize_seq(List(std::marker::PhantomData))
    }
}

struct Numbered<R> {
    number: usize,
    kind: std::marker::PhantomData<R>,
}

impl<'de, R: Record> de::DeserializeSeed<'de> for Numbered<R> {
    type Value = R;

    fn deserialize<D: Deserializer<'de>>(self, source: D) -> Result<R, D::Error> {
        let number = self.number;
        source.deserialize_map(self).map_err(|error| {
            let message = error.to_string();
            if message.starts_with(R::KIND) {
                error
            } else {
                de::Error::custom(format_args!("{} number {number}: {message}", R::KIND))
            }
        })
    }
}

impl<'de, R: Record> Visitor<'de> for Numbered<R> {
    type Value = R;

    fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "a {} with its fields", R::KIND)
    }

    fn visit_map<M: MapAccess<'de>>(self, mut map: M) -> Result<R, M::Error> {
        let mut record = R::default();
        while let Some(field) = map.next_key::<String>()? {
            if let Err(error) = record.read(&field, &mut map) {
                return Err(match record.name() {
                    Some(name) => de::Error::custom(format_args!("{} {name:?}: {error}", R::KIND)),
                    None => error,
                });
            }
        }
        Ok(record)
    }
}

impl<'de> Deserialize<'de> for Rig {
    fn deserialize<D: Deserializer<'de>>(source: D) -> Result<Self, D::Error> {
        struct RigVisitor;
        impl<'de> Visitor<'de> for RigVisitor {
            type Value = Rig;

            fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(out, "a rig: an object with \"points\" and \"lines\"")
            }

            fn visit_map<M: MapAccess<'de>>(self, mut map: M) -> Result<Rig, M::Error> {
                let mut points: Option<Records<PointRecord>> = None;
                let mut lines: Option<Records<LineRecord>> = None;
                while let Some(field) = map.next_key::<String>()? {
                    match field.as_str() {
                        "points" if points.is_some() => return Err(de::Error::duplicate_field("points")),
                        "lines" if lines.is_some() => return Err(de::Error::duplicate_field("lines")),
                        "points" => points = Some(map.next_value()?),
                        "lines" => lines = Some(map.next_value()?),
                        other => {
                            let error = de::Error::unknown_field(other, RIG_FIELDS);
                            let _: Result<IgnoredAny, _> = map.next_value();
                            return Err(error);
                        }
                    }
                }
                let points = points.ok_or_else(|| de::Error::missing_field("points"))?;
                let lines = lines.ok_or_else(|| de::Error::missing_field("lines"))?;
                build(points.0, lines.0).map_err(de::Error::custom)
            }
        }
        source.deserialize_map(RigVisitor)
    }
}

/// Why records are not a rig.
enum Fault {
    Missing { owner: String, field: &'static str },
    Rig(RigError),
}

impl From<RigError> for Fault {
    fn from(error: RigError) -> Self {
        Fault::Rig(error)
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Fault::Missing { owner, field } => write!(out, "{owner}: \"{field}\" is missing; it is required"),
            Fault::Rig(error) => error.fmt(out),
        }
    }
}

fn build(points: Vec<PointRecord>, lines: Vec<LineRecord>) -> Result<Rig, Fault> {
    if points.is_empty() {
        return Err(RigError::Empty.into());
    }
    let mut rig = Rig::new();
    for (index, point) in points.into_iter().enumerate() {
        let name = point.name.ok_or_else(|| missing(format!("point number {}", index + 1), "name"))?;
        let at = point.at.ok_or_else(|| missing(format!("point {name:?}"), "at_m"))?;
        let load = point.load.unwrap_or_default();
        rig.add_point(name, at.into(), load.into(), point.held.unwrap_or(false))?;
    }
    for (index, line) in lines.into_iter().enumerate() {
        let name = line.name.ok_or_else(|| missing(format!("line number {}", index + 1), "name"))?;
        let need = |field| missing(format!("line {name:?}"), field);
        let through = line.through.ok_or_else(|| need("through"))?;
        let length = line.length.ok_or_else(|| need("length_m"))?;
        let stiffness = line.stiffness.ok_or_else(|| need("stiffness_n"))?;
        let mut ids = Vec::with_capacity(through.len());
        for point in through {
            match rig.point_named(&point) {
                Some(id) => ids.push(id),
                None => return Err(RigError::UnknownPoint { line: name, point }.into()),
            }
        }
        rig.add_heavy_line(name, &ids, length, stiffness, line.weight.unwrap_or(0.0))?;
    }
    Ok(rig)
}

fn missing(owner: String, field: &'static str) -> Fault {
    Fault::Missing { owner, field }
}

/// As it is read, without what is left out of a file where it is nothing. A rig without points is written, and not read.
/// ```
/// use rigging_core::statics::Rig;
///
/// let mut rig = Rig::new();
/// let bolt = rig.add_held("bolt", [0.0; 3])?;
/// let load = rig.add_free("load", [0.0, 0.0, -9.0], [0.0, 0.0, -900.0])?;
/// rig.add_heavy_line("rope", &[bolt, load], 10.0, 20e3, 0.5)?;
/// let text = serde_json::to_string(&rig)?;
/// assert!(text.starts_with(r#"{"points":[{"name":"bolt","at_m":[0.0,0.0,0.0],"held":true},{"name":"load","#));
/// assert_eq!(serde_json::from_str::<Rig>(&text)?, rig);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
impl Serialize for Rig {
    fn serialize<S: Serializer>(&self, target: S) -> Result<S::Ok, S::Error> {
        let mut map = target.serialize_map(None)?;
        map.serialize_entry("points", &Rows(self.points().iter().map(PointRow)))?;
        map.serialize_entry("lines", &Rows(self.lines().iter().map(|line| LineRow { rig: self, line })))?;
        map.end()
    }
}

struct PointRow<'a>(&'a Point);

impl Serialize for PointRow<'_> {
    fn serialize<S: Serializer>(&self, target: S) -> Result<S::Ok, S::Error> {
        let PointRow(point) = self;
        let mut map = target.serialize_map(None)?;
        map.serialize_entry("name", point.name())?;
        map.serialize_entry("at_m", &numbers(point.at()))?;
        if point.is_held() {
            map.serialize_entry("held", &true)?;
        }
        if point.load().amax() > 0.0 {
            map.serialize_entry("load_n", &numbers(point.load()))?;
        }
        map.end()
    }
}

struct LineRow<'a> {
    rig: &'a Rig,
    line: &'a Line,
}

impl Serialize for LineRow<'_> {
    fn serialize<S: Serializer>(&self, target: S) -> Result<S::Ok, S::Error> {
        let name = |id: PointId| self.rig.points().get(id.0).map(Point::name);
        let through: Vec<&str> = self.line.through().filter_map(name).collect();
        let mut map = target.serialize_map(None)?;
        map.serialize_entry("name", self.line.name())?;
        map.serialize_entry("through", &through)?;
        map.serialize_entry("length_m", &self.line.length())?;
        map.serialize_entry("stiffness_n", &self.line.stiffness())?;
        if self.line.weight() > 0.0 {
            map.serialize_entry("weight_n_per_m", &self.line.weight())?;
        }
        map.end()
    }
}
