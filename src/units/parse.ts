import { TradeRefusal } from '../trade/refusal.ts';
import { fromUnits, type QuantityUnit, quantities, type Units } from './quantity.ts';

/** How people type a unit, besides its own sign. Small and capital letters are told apart only where it matters. */
const typed: Readonly<Record<QuantityUnit, Readonly<Record<Units, readonly string[]>>>> = {
  '°C': { metric: ['C', '° C', 'deg C'], us: ['F', '° F', 'deg F'] },
  'Δ°C': { metric: ['C', '° C', 'deg C'], us: ['F', '° F', 'deg F'] },
  L: { metric: ['l', 'litre', 'litres', 'liter', 'liters'], us: ['gals', 'US gal', 'gallon', 'gallons'] },
  bar: { metric: ['bars'], us: ['psig', 'PSI'] },
  µm: { metric: ['um', 'μm', 'micron', 'microns'], us: ['mils'] },
  mm: { metric: [], us: ['inch', 'inches', '"', '″'] },
  m: { metric: ['metre', 'metres', 'meter', 'meters'], us: ['foot', 'feet', "'", '′'] },
  'm²': { metric: ['m2', 'sq m', 'sqm'], us: ['ft2', 'sq ft', 'sqft'] },
  'm³': { metric: ['m3', 'cu m'], us: ['ft3', 'cu ft'] },
  'm/s': { metric: [], us: [] },
  'L/min': { metric: ['l/min', 'lpm'], us: ['gpm'] },
  'm³/min': { metric: ['m3/min'], us: ['ft3/min', 'cfm'] },
  'm²/L': { metric: ['m2/L', 'm2/l', 'm²/l'], us: ['ft2/gal', 'sq ft/gal'] },
  kg: { metric: [], us: ['lbs'] },
  'kg/L': { metric: ['kg/l'], us: ['lbs/gal', 'ppg'] },
};

export type ParsedQuantity =
  | { readonly ok: true; readonly metric: number }
  | {
      readonly ok: false;
      readonly reason: 'not-a-number' | 'wrong-unit' | 'imperial';
      /** The units that may stand there, as people would write them. */
      readonly accepted: readonly string[];
    };

const NUMBER = /^([-−+]?)\s*(?:(\d+)\s+)?(\d+(?:[.,]\d+)?)(?:\s*\/\s*(\d+))?\s*(.*)$/su;

/**
 * A figure as people type it, turned into the unit that everything inside is in: "20", "20,5 C", "68 °F", "3/8 in",
 * "1 1/4 in". A figure without a unit is in `plain` units. Gallons are US gallons; imperial ones are refused by name.
 */
export function parseQuantity(text: string, unit: QuantityUnit, plain: Units): ParsedQuantity {
  const accepted = [quantities[unit].metric.sign, quantities[unit].us.sign];
  const no = (reason: 'not-a-number' | 'wrong-unit' | 'imperial'): ParsedQuantity => ({
    ok: false,
    reason,
    accepted,
  });
  const [whole, sign = '', before, figure = '', below, behind = ''] = NUMBER.exec(text.trim()) ?? [];
  // "1 250" is two numbers or one, and nobody can tell: only a fraction has a whole number before it.
  if (whole === undefined || (before !== undefined && below === undefined)) return no('not-a-number');
  const named = behind.trim();
  if (/^(imp|uk)/i.test(named)) return no('imperial');
  const units = named === '' ? plain : unitsOf(named, unit);
  if (units === null) return no('wrong-unit');
  const part = Number(figure.replace(',', '.')) / (below === undefined ? 1 : Number(below));
  const size = Number(before ?? 0) + part;
  if (!Number.isFinite(size)) return no('not-a-number');
  return inside(unit, sign === '' || sign === '+' ? size : -size, units) ?? no('not-a-number');
}

function unitsOf(named: string, unit: QuantityUnit): Units | null {
  const same = (units: Units) => {
    const signs = [quantities[unit][units].sign, ...typed[unit][units]];
    return signs.some(
      (one) => one === named || (one.length > 2 && one.toLowerCase() === named.toLowerCase()),
    );
  };
  if (same('metric')) return 'metric';
  return same('us') ? 'us' : null;
}

/** Null for what no amount can be, such as −300 °C or −5 gal: the conversion itself refuses that. */
function inside(unit: QuantityUnit, value: number, units: Units): ParsedQuantity | null {
  try {
    // Twelve digits: 3/8 in is 9.525 mm, not 9.524999999999999.
    return { ok: true, metric: Number(fromUnits(unit, value, units).toPrecision(12)) };
  } catch (error) {
    if (error instanceof TradeRefusal) return null;
    throw error;
  }
}
