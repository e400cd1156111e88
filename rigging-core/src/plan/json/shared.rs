//! The same values for any other format that `serde` knows.

use super::{Json, Node};
use serde::de::{MapAccess, SeqAccess, Visitor};
use serde::ser::{SerializeMap, SerializeSeq};
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::fmt;

impl Serialize for Node {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match &self.json {
            Json::Number(value) => serializer.serialize_f64(*value),
            Json::Text(words) => serializer.serialize_str(words),
            Json::Other => serializer.serialize_unit(),
            Json::List(list) => {
                let mut sequence = serializer.serialize_seq(Some(list.len()))?;
                for node in list {
                    sequence.serialize_element(node)?;
                }
                sequence.end()
            }
            Json::Object(members) => {
                let mut map = serializer.serialize_map(Some(members.len()))?;
                for (name, node) in members {
                    map.serialize_entry(name, node)?;
                }
                map.end()
            }
        }
    }
}

impl<'de> Deserialize<'de> for Node {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Any;
        impl<'de> Visitor<'de> for Any {
            type Value = Node;
            fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
                write!(f, "a value of a rigging plan")
            }
            fn visit_bool<E>(self, _: bool) -> Result<Node, E> {
                Ok(Json::Other.into())
            }
            fn visit_unit<E>(self) -> Result<Node, E> {
                Ok(Json::Other.into())
            }
            fn visit_f64<E>(self, value: f64) -> Result<Node, E> {
                Ok(Json::Number(value).into())
            }
            fn visit_u64<E>(self, value: u64) -> Result<Node, E> {
                Ok(Json::Number(value as f64).into())
            }
            fn visit_i64<E>(self, value: i64) -> Result<Node, E> {
                Ok(Json::Number(value as f64).into())
            }
            fn visit_str<E>(self, words: &str) -> Result<Node, E> {
                Ok(Json::Text(words.to_owned()).into())
            }
            fn visit_seq<A: SeqAccess<'de>>(self, mut access: A) -> Result<Node, A::Error> {
                let mut list = Vec::new();
                while let Some(node) = access.next_element()? {
                    list.push(node);
                }
                Ok(Json::List(list).into())
            }
            fn visit_map<A: MapAccess<'de>>(self, mut access: A) -> Result<Node, A::Error> {
                let mut members = Vec::new();
                while let Some(member) = access.next_entry()? {
                    members.push(member);
                }
                Ok(Json::Object(members).into())
            }
        }
        deserializer.deserialize_any(Any)
    }
}
