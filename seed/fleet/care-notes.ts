// How units of one build are isolated, and what their materials stand. Invented, and general: the permit to work, the maker's
// instructions and local codes decide.

const PERMIT = 'Work under a permit; local codes and the maker’s instructions decide.';

export const PLATES_ISOLATED = `Stop both pumps, close and lock all four valves. Vent and drain both sides, let the frame cool, and prove that both sides are free of pressure before a bolt is loosened. ${PERMIT}`;
export const STEAM_ISOLATED = `Close and lock the steam valve and its bypass, isolate the condensate line behind the trap. Let it cool, open drains and vents, and prove that both sides are free of pressure and below 40 °C. ${PERMIT}`;
export const TUBES_ISOLATED = `Close and lock inlets and outlets of both sides. Drain the oil or water into a closed container, vent, and prove that both sides are free of pressure before the channel is opened. ${PERMIT}`;
export const CIRCUIT_ISOLATED = `Close and lock the valves of both sides, steam with its bypass first. Let it cool, drain and vent, and prove that both sides are free of pressure before the cleaning circuit is connected; leave a vent open for the gas that forms. ${PERMIT}`;
export const FANS_ISOLATED = `Stop and lock what moves the air, isolate the coil, and let it cool before anyone reaches in. ${PERMIT}`;
export const FLUE_ISOLATED = `Shut the burner down, lock the fuel, purge and ventilate the flue, and measure the air before entry: it is a confined space. ${PERMIT}`;

export const PRODUCT_GASKETS =
  'Stainless steel plates, gaskets for food: usual caustic and nitric acid at the strengths and temperatures the maker allows. No hydrochloric acid, no chlorine, no steel brushes. Rinse until neutral.';
export const PRODUCT_TUBES =
  'Stainless steel in contact with the product: usual caustic and nitric acid at the strengths and temperatures the maker allows. No hydrochloric acid, no chlorine. Rinse until neutral.';
export const TITANIUM_PLATES =
  'Titanium plates for sea water: no hydrofluoric acid or fluorides. Pressure-wash along the channels, away from the gaskets; look at the gaskets of the sea-water side.';
export const PLAIN_PLATES =
  'Stainless steel plates, rubber gaskets: keep chlorides low, and ask the maker before an oil, solvent or strong acid touches the gaskets.';
export const INHIBITED_ACID =
  'Steel and stainless steel: inhibited acid only, within the strength, temperature and time of its data sheet. Never mix with chlorine or caustic; neutralise and rinse before closing.';
export const COPPER_TUBES =
  'Copper-alloy tubes: no ammonia, no nitric acid. Nylon brushes; with water jets keep to the pressure the maker allows.';
export const STEEL_TUBES =
  'Steel tubes and channel: water jets within the pressure the maker allows. Acid only with an inhibitor; dry without delay, against rust.';
export const ALUMINIUM_FINS =
  'Aluminium fins: water at low pressure along the fins. No caustic, no acid but what the maker names.';
export const STEEL_IN_FLUE =
  'Carbon steel in the flue: the wash water turns acid with the soot. Collect it, neutralise, and dry the tubes without delay.';
