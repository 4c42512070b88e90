//! The words of the trade that head a column or name an end, in English, German, French and Spanish.
//!
//! All are folded: small letters, no accents (`ä` as `a`, `ß` as `ss`), words separated by one space.

use super::Meaning;
use crate::base::table::folded;
use crate::trade::spring::Ends;

/// What a header means, by its words.
#[rustfmt::skip]
pub(super) const HEADERS: &[(Meaning, &[&str])] = &[
    (Meaning::Number, &[
        "number", "no", "part", "parts", "part no", "part nr", "part number", "part #", "#", "article", "article no",
        "article number", "item", "item no", "item number", "sku", "code", "part code", "partno", "partnumber",
        "nummer", "nr", "teil", "teilenummer", "teile nr", "teilenr", "artikel", "artikelnummer", "art nr", "artnr",
        "artikel nr", "bestellnummer", "numero", "reference", "ref", "referencia", "codigo", "numero de pieza",
    ]),
    (Meaning::What, &[
        "description", "name", "what", "designation", "text", "bezeichnung", "beschreibung", "benennung",
        "descripcion", "denominacion", "nom", "nombre",
    ]),
    (Meaning::Rate, &[
        "rate", "spring rate", "springrate", "stiffness", "k", "spring constant", "federrate", "federkonstante",
        "federsteifigkeit", "steifigkeit", "raideur", "rigidez", "constante", "constante de resorte",
    ]),
    (Meaning::RateTolerance, &[
        "tolerance", "tol", "rate tolerance", "rate tol", "spring rate tolerance", "±", "rate ±", "+/-", "rate +/-",
        "toleranz", "± of the rate", "± der rate", "ratentoleranz", "federratentoleranz", "tolerance raideur", "tolerancia",
    ]),
    (Meaning::FreeLength, &[
        "free length", "freelength", "length free", "l0", "lo", "free height", "freie lange", "lange l0",
        "lange frei", "ungespannte lange", "lange ungespannt", "longueur libre", "longitud libre", "largo libre",
    ]),
    (Meaning::SolidLength, &[
        "solid length", "solid height", "length solid", "solid", "block length", "block", "block height", "bind",
        "bind length", "coil bind", "coil bind length", "bind height", "lc", "blocklange", "lange auf block",
        "longueur a bloc", "longueur bloc", "longitud a bloque", "longitud solida",
    ]),
    (Meaning::InsideDiameter, &[
        "id", "inside diameter", "inside dia", "inside", "inner diameter", "inner dia", "inner", "di",
        "diameter inside", "ø inside", "innendurchmesser", "innen ø", "ø innen", "diametre interieur", "ø interieur",
        "diametro interior",
    ]),
    (Meaning::OutsideDiameter, &[
        "od", "outside diameter", "outside dia", "outside", "outer diameter", "outer dia", "outer", "de", "da",
        "diameter outside", "ø outside", "aussendurchmesser", "aussen ø", "ø aussen", "diametre exterieur",
        "ø exterieur", "diametro exterior",
    ]),
    (Meaning::Wire, &[
        "wire", "wire diameter", "wire dia", "wire size", "wire ø", "wire thickness", "d", "draht",
        "drahtdurchmesser", "drahtstarke", "draht ø", "fil", "diametre du fil", "diametre fil", "ø fil", "alambre",
        "diametro de alambre", "diametro del alambre", "hilo",
    ]),
    (Meaning::TotalCoils, &[
        "coils", "total coils", "number of coils", "turns", "total turns", "windungen", "gesamtwindungen",
        "windungszahl", "spires", "nombre de spires", "spires totales", "espiras", "espiras totales",
    ]),
    (Meaning::Ends, &[
        "ends", "end", "end type", "end form", "type of ends", "enden", "endenform", "extremites", "extremos",
    ]),
    (Meaning::MaxLoad, &[
        "max load", "maximum load", "load max", "load capacity", "capacity", "fmax", "f max", "fn", "max force",
        "maximum force", "load limit", "greatest load", "hochstlast", "maximallast", "max last", "tragkraft",
        "charge max", "charge maximale", "carga max", "carga maxima",
    ]),
    (Meaning::Price, &[
        "price", "unit price", "price each", "net price", "cost", "cost each", "preis", "stuckpreis", "nettopreis",
        "prix", "prix unitaire", "precio", "precio unitario",
    ]),
    (Meaning::Stock, &[
        "stock", "in stock", "qty", "quantity", "on hand", "on shelf", "pieces in stock", "pieces", "pcs", "bestand",
        "lager", "lagerbestand", "menge", "stuck", "en stock", "quantite", "existencias", "cantidad",
    ]),
    (Meaning::ClosedLength, &[
        "closed length", "closed", "length closed", "compressed length", "compressed", "length compressed",
        "eingefahren", "lange eingefahren", "eingefahrene lange", "geschlossen", "lange geschlossen",
        "longueur fermee", "longueur comprimee", "longitud cerrada", "longitud comprimida",
    ]),
    (Meaning::OpenLength, &[
        "open length", "open", "length open", "extended length", "extended", "length extended", "ausgefahren",
        "lange ausgefahren", "ausgefahrene lange", "offen", "lange offen", "longueur ouverte", "longueur detendue",
        "longitud abierta", "longitud extendida",
    ]),
    (Meaning::Mounts, &[
        "mounts", "mount", "mounting", "mountings", "fittings", "eyes", "aufnahme", "aufnahmen", "befestigung",
        "befestigungen", "fixation", "fixations", "montaje", "montajes", "anclajes",
    ]),
];

/// Words in front that say nothing new: "nominal rate", "spring free length".
pub(super) const IN_FRONT: &[&str] =
    &["nominal", "nom", "spring", "springs", "coil", "damper", "dampers", "shock", "feder", "dampfer", "approx"];

/// Words that a bump column is known by.
pub(super) const BUMP: &[&str] =
    &["bump", "compression", "druckstufe", "druckstufenkraft", "druck", "einfedern", "compresion", "jounce"];
/// Words that a rebound column is known by.
pub(super) const REBOUND: &[&str] =
    &["rebound", "extension", "zugstufe", "zugstufenkraft", "zug", "ausfedern", "detente", "rebote"];
/// Words that a column of damper speeds is known by.
pub(super) const SPEED: &[&str] = &["speed", "velocity", "v", "geschwindigkeit", "vitesse", "velocidad"];
/// Words that a column of damper forces of both directions is known by.
pub(super) const FORCE: &[&str] = &["force", "f", "kraft", "fuerza", "load"];
/// Words that a column of clicks is known by.
pub(super) const CLICK: &[&str] = &["click", "clicks", "setting", "klick", "klicks", "clic", "clics", "rastung"];
/// Words between them, the speed and the unit.
pub(super) const AROUND_A_SPEED: &[&str] =
    &["at", "force", "damping", "speed", "bei", "kraft", "a", "fuerza", "in", "vitesse", "v", "f"];

/// Signs and words of money: one may stand before or behind a price.
pub(super) const MONEY: &[&str] = &[
    "€", "$", "£", "¥", "eur", "euro", "usd", "gbp", "chf", "sek", "nok", "dkk", "pln", "czk", "huf", "ron", "jpy",
    "aud", "cad", "nzd", "zar", "kr", "fr",
];
/// Words behind a price or a count in a header.
pub(super) const PER_PIECE: &[&str] = &["each", "net", "pcs", "piece", "pieces", "netto", "stk"];

/// The kind of ends a cell names; `None` when it is not understood.
pub(super) fn ends(text: &str) -> Option<Ends> {
    let text = folded(text);
    let words = text.split(|c: char| !c.is_alphanumeric()).filter(|w| !w.is_empty());
    let (mut plain, mut closed, mut ground, mut not) = (false, false, None, false);
    for word in words {
        match word {
            "pigtail" | "pig" | "tangential" | "tangent" | "tangentiel" | "tangencial" => {
                return Some(Ends::Counted);
            }
            "closed" | "squared" | "square" | "angelegt" | "geschlossen" | "rapprochees" | "fermees" | "cerrados" => {
                closed = true;
            }
            "plain" | "open" | "cut" | "offen" | "ouvertes" | "abiertos" => plain = true,
            "ground" | "geschliffen" | "meulees" | "rectificados" => ground = Some(!not),
            "unground" | "ungeschliffen" => ground = Some(false),
            "c" if ground.is_none() => closed = true,
            "g" => ground = Some(!not),
            "not" | "non" | "nicht" | "no" | "sin" => not = true,
            "and" | "und" | "et" | "y" | "end" | "ends" | "both" | "coil" | "coils" | "enden" | "flat" => {}
            _ => return None,
        }
    }
    match (plain, closed, ground.unwrap_or(false)) {
        (true, false, false) => Some(Ends::Plain),
        (true, false, true) => Some(Ends::PlainGround),
        (false, true, false) => Some(Ends::Closed),
        (false, true, true) => Some(Ends::ClosedGround),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ends_as_people_write_them() {
        for kind in Ends::ALL {
            assert_eq!(ends(kind.words().said()), Some(kind), "{}", kind.words());
        }
        for (text, kind) in [
            ("Closed & Ground", Some(Ends::ClosedGround)),
            ("C&G", Some(Ends::ClosedGround)),
            ("closed, not ground", Some(Ends::Closed)),
            ("squared and ground", Some(Ends::ClosedGround)),
            ("open ends", Some(Ends::Plain)),
            ("plain-ground", Some(Ends::PlainGround)),
            ("Tangential", Some(Ends::Counted)),
            ("pig tail", Some(Ends::Counted)),
            ("angelegt und geschliffen", Some(Ends::ClosedGround)),
            ("ground", None),
            ("closed/open", None),
            ("hooked", None),
            ("closed, hooked", None),
        ] {
            assert_eq!(ends(text), kind, "{text}");
        }
    }

    #[test]
    fn no_header_word_means_two_things_and_all_are_folded() {
        for (i, (meaning, words)) in HEADERS.iter().enumerate() {
            for word in *words {
                assert_eq!(*word, folded(word), "{word} is not folded");
                let others = HEADERS.iter().skip(i + 1).filter(|(_, others)| others.contains(word));
                assert_eq!(others.count(), 0, "{word} means {meaning:?} and something else");
            }
        }
    }
}
