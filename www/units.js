// Changing the unit system must not change what was typed: a bare number is first given the unit it was taken in.

import { AUXILIARY, LABEL, LIMITS, LINE, PLACE, PLATE, TASK, UNITS } from "./fields.js";

const BARE = /^[-+]?[\d.,/ -]*\d$/;

function pin(part, groups, system) {
  for (const [name, , sort] of groups.flatMap(([, fields]) => fields)) {
    const kind = sort === "flow" && ["squeezer", "rivet_puller", "cleco_tool"].includes(part.kind) ? "stroke" : sort;
    const unit = UNITS[kind];
    const text = part[name];
    if (unit && unit.us !== unit.metric && BARE.test(text.trim())) part[name] = `${text.trim()} ${unit[system].replace(" a stroke", "")}`;
  }
}

/** A field's text with the unit that it is taken in. */
export function withUnit(text, kind, system) {
  const typed = text.trim();
  return BARE.test(typed) ? `${typed} ${UNITS[kind][system]}` : typed;
}

/** Changes `shop` to `system`; what was typed keeps its meaning. */
export function changeUnits(shop, system) {
  if (shop.units === system) return;
  for (const candidate of shop.candidates) pin(candidate, [...LABEL, ...PLATE], shop.units);
  for (const place of shop.places) pin(place, PLACE, shop.units);
  for (const task of shop.tasks) pin(task, TASK, shop.units);
  pin(shop.line, LINE, shop.units);
  pin(shop.auxiliary, AUXILIARY, shop.units);
  pin(shop.limits, LIMITS, shop.units);
  shop.units = system;
}
