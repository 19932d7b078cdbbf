//! What the scenarios of treating share: a nursery, labels, a treatment in hand.
//!
//! Rates and areas here are for tests alone.

use velamen_core::apply::{ApplyDraft, ApplyFault, Measured, Mixing, WaterDraft};
use velamen_core::command::{Command, PlaceTraits, ProductTraits};
use velamen_core::event::{ActiveCopy, AgentClass, Cover, Event, LabelUse, Method, Treated};
use velamen_core::id::{LotId, PlaceId, ProductId};
use velamen_core::season::{Hemisphere, Warmth};
use velamen_tests::Phone;

pub(crate) fn nursery() -> (Phone, PlaceId) {
    let mut phone = Phone::new(1, "2027-03-11");
    phone.open_book(Hemisphere::North);
    let place = phone.place("Cool house", Warmth::Cool);
    (phone, place)
}

pub(crate) fn use_of(methods: &[Method], rate: &str) -> LabelUse {
    LabelUse {
        key: "use-1".to_owned(),
        methods: methods.to_vec(),
        rate_typed: rate.to_owned(),
        reentry_h: Some(12),
        ..LabelUse::default()
    }
}

pub(crate) fn product(
    phone: &mut Phone,
    name: &str,
    actives: &[&str],
    uses: Vec<LabelUse>,
) -> ProductId {
    let actives = actives.iter().map(|name| ActiveCopy {
        name: (*name).to_owned(),
        ..ActiveCopy::default()
    });
    let traits = ProductTraits {
        label_name: Some(name.to_owned()),
        actives: Some(actives.collect()),
        uses: Some(uses),
        ..ProductTraits::default()
    };
    let done = phone.act(Command::SetProduct {
        product: None,
        traits,
    });
    match done.events.first() {
        Some(Event::ProductSet(set)) => set.product,
        other => panic!("{other:?}"),
    }
}

pub(crate) fn draft(
    method: Method,
    product: ProductId,
    against: AgentClass,
    lots: &[LotId],
) -> ApplyDraft {
    ApplyDraft {
        method: Some(method),
        mixing: Mixing {
            product: Some(product),
            against: Some(against),
            ..Mixing::default()
        },
        lots: lots.to_vec(),
        ..ApplyDraft::default()
    }
}

pub(crate) fn treated(phone: &mut Phone, draft: &ApplyDraft) -> Vec<Treated> {
    let command = draft.command(&phone.state, phone.now_ms).expect("a record");
    let done = phone.act(command);
    let events = done.events.into_iter();
    events
        .filter_map(|event| match event {
            Event::Treated(treated) => Some(*treated),
            _ => None,
        })
        .collect()
}

pub(crate) fn ready(draft: &ApplyDraft, phone: &Phone) -> Result<Measured, ApplyFault> {
    draft.clone().ready_to_mix(&phone.state, phone.today)
}

pub(crate) fn spray_on(
    phone: &mut Phone,
    id: ProductId,
    against: AgentClass,
    lot: LotId,
) -> Treated {
    let draft = ApplyDraft {
        water: WaterDraft {
            litres: "2".to_owned(),
            ..WaterDraft::default()
        },
        ..draft(Method::Spray, id, against, &[lot])
    };
    treated(phone, &draft).remove(0)
}

pub(crate) fn roofed(phone: &mut Phone, cover: Cover, area_cm2: Option<u32>) -> PlaceId {
    let done = phone.act(Command::SetPlace {
        place: None,
        name: Some("Warm house".to_owned()),
        walk: None,
        about: PlaceTraits {
            cover: Some(cover),
            area_cm2,
            ..PlaceTraits::default()
        },
    });
    match done.events.first() {
        Some(Event::PlaceSet(set)) => set.place,
        other => panic!("{other:?}"),
    }
}

/// A fungicide and an insecticide whose labels allow each other, or not.
pub(crate) fn two(phone: &mut Phone, allow: bool) -> (ProductId, ProductId) {
    let one = product(
        phone,
        "Against fungi",
        &["triforine"],
        vec![use_of(&[Method::Bath, Method::Spray], "1 mL/L")],
    );
    let with = |other| LabelUse {
        mix_with: if allow { vec![other] } else { Vec::new() },
        reentry_h: Some(24),
        ..use_of(&[Method::Bath, Method::Spray], "2 mL/L")
    };
    let other = product(phone, "Against insects", &["spinosad"], vec![with(one)]);
    let uses = vec![LabelUse {
        mix_with: vec![other],
        ..use_of(&[Method::Bath, Method::Spray], "1 mL/L")
    }];
    phone.act(Command::SetProduct {
        product: Some(one),
        traits: ProductTraits {
            uses: Some(uses),
            ..ProductTraits::default()
        },
    });
    (one, other)
}

pub(crate) fn partner(id: ProductId) -> Option<Box<Mixing>> {
    Some(Box::new(Mixing {
        product: Some(id),
        against: Some(AgentClass::Insect),
        ..Mixing::default()
    }))
}
