//! `[grout]` and `[order]`: what the grout is bought as, and how many spares are wanted.

use super::base::sound;
use super::context::Context;
use super::job_toml::one_of;
use crate::catalog::{Authority, Catalog, Consistency, GroutBag, Limit, Standing};
use crate::length::Length;
use crate::model::{GroutSupply, Supplies};
use crate::source::{Node, Problem, Table};
use crate::text::quoted;

/// What a bag is called whose yield the job gives.
const AS_GIVEN: &str = "as given";

/// Reads `[grout]` and `[order]`; both may be left out.
pub(super) fn read(context: Context<'_>, root: &Table<'_>, catalog: &Catalog) -> Option<Supplies> {
    let spares = spares(context, root);
    let grout = grout(context, root, catalog);
    Some(Supplies { spares: spares?, grout: grout? })
}

fn spares(context: Context<'_>, root: &Table<'_>) -> Option<Limit<u32>> {
    let walk = context.walk;
    let Some(node) = root.get("order") else { return Some(Supplies::usual_spares()) };
    let table = walk.table(node, "[order]")?;
    let own = table.get("spares").map(|node| percent(context, node));
    table.close(walk);
    own.unwrap_or_else(|| Some(Supplies::usual_spares()))
}

fn grout(context: Context<'_>, root: &Table<'_>, catalog: &Catalog) -> Option<GroutSupply> {
    let walk = context.walk;
    let waste = usual_waste(catalog);
    let none = GroutSupply { bag: None, consistency: None, waste, edge: None, shoulder: Length::ZERO };
    let Some(node) = root.get("grout") else { return Some(none) };
    let table = walk.table(node, "[grout]")?;
    let (product, yields) = (table.get("product"), table.get("yield"));
    let consistency = table.get("consistency").map(|node| one_of(walk, node, Consistency::WRITTEN));
    let waste = table.get("waste").map(|node| percent(context, node));
    let edge = table.get("edge").map(|node| walk.size(node));
    let shoulder = table.get("shoulder").map(|node| (walk.size(node), node.place));
    table.close(walk);
    let bag = match (product, yields) {
        (Some(_), Some(yields)) => {
            let message = "`product` and `yield` cannot stand together";
            context.note(Problem::at(yields.place, message).fix("use one of the two"));
            None
        }
        (Some(product), None) => self::product(context, product, catalog).map(Some),
        (None, Some(yields)) => walk.volume(yields).map(|yields| {
            Some(GroutBag {
                name: AS_GIVEN.to_owned(),
                title: "bag as the job gives it".to_owned(),
                consistency: None,
                yields,
                authority: Authority::this_job(),
            })
        }),
        (None, None) => Some(None),
    };
    let edge = sound(edge);
    if let Some((Some(height), place)) = shoulder {
        let no_room = edge.is_some_and(|edge| edge.is_none_or(|edge| edge == Length::ZERO));
        if height > Length::ZERO && no_room {
            let message = "there is no room for a shoulder where the form stands at the plate";
            context.note(Problem::at(place, message).fix("add edge = \"1\", how far the form stands clear"));
            return None;
        }
    }
    let shoulder = sound(shoulder.map(|(height, _)| height));
    let (bag, consistency) = (bag?, sound(consistency)?);
    Some(GroutSupply {
        consistency: consistency.or_else(|| bag.as_ref()?.consistency),
        bag,
        waste: sound(waste)?.unwrap_or(none.waste),
        edge: edge?,
        shoulder: shoulder?.unwrap_or(Length::ZERO),
    })
}

/// Gives the waste of a job that does not say, as the catalog has it.
fn usual_waste(catalog: &Catalog) -> Limit<u32> {
    let none = || Limit { value: 0, authority: Authority::new(Standing::HouseRule, "no waste is counted") };
    catalog.grouts.first().map_or_else(none, |grouts| grouts.waste.clone())
}

fn percent(context: Context<'_>, node: &Node) -> Option<Limit<u32>> {
    let value = u32::try_from(context.walk.whole(node, 0, 100)?).ok()?;
    Some(Limit { value, authority: Authority::this_job() })
}

fn product(context: Context<'_>, node: &Node, catalog: &Catalog) -> Option<GroutBag> {
    let name = context.walk.name(node)?;
    let mut bags = catalog.grouts.iter().flat_map(|grouts| &grouts.bags);
    let found = bags.find(|bag| bag.name == name).cloned();
    if found.is_none() {
        let known = catalog.grouts.iter().flat_map(|grouts| grouts.bags.iter().map(|bag| bag.name.as_str()));
        let message = format!("{} is not a bag of grout in the catalog", quoted(&name));
        context.unknown(node.place, message, &name, known);
    }
    found
}
