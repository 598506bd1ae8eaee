import type { QuantityUnit } from '../../src/units/quantity.ts';

/**
 * What the numbers of a site pack and a day entry measure, by their path as in fields.ts. In a file a plain number is in
 * this unit, whatever the units of the site are; a figure with its unit behind it (`50 ft`) is converted on reading.
 * A test holds this list to the schemas: every number is either here or named as one that has no such unit.
 */
export const fieldUnits: Readonly<Record<string, QuantityUnit>> = {
  'site.altitudeM': 'm',

  'coatings.kitLitres': 'L',
  'coatings.potLife.c': '°C',
  'coatings.induction.c': '°C',
  'coatings.thinner.flashPointC': '°C',
  'coatings.flashPointC': '°C',
  'coatings.flushFlashPointC': '°C',
  'coatings.densityKgPerL': 'kg/L',
  'coatings.vapour.paint.densityKgPerL': 'kg/L',
  'coatings.vapour.thinner.densityKgPerL': 'kg/L',
  'coatings.vapour.flush.densityKgPerL': 'kg/L',
  'coatings.dft.min': 'µm',
  'coatings.dft.max': 'µm',
  'coatings.limits.steelMinC': '°C',
  'coatings.limits.steelMaxC': '°C',
  'coatings.limits.airMinC': '°C',
  'coatings.limits.airMaxC': '°C',
  'coatings.limits.marginMinC': 'Δ°C',
  'coatings.recoat.toC': '°C',

  'rigs.maxAirBar': 'bar',
  'rigs.maxFluidBar': 'bar',
  'rigs.ratings.bar': 'bar',
  'rigs.hoses.boreMm': 'mm',
  'rigs.hoses.lengthM': 'm',
  'rigs.pumpAndFilterLitres': 'L',
  'rigs.drainLineLitres': 'L',
  'rigs.litresPerCycle': 'L',
  'rigs.compressorLPerMin': 'L/min',

  'policy.marginMinC': 'Δ°C',
  'policy.warmHoseAddsC': 'Δ°C',
  'policy.windMaxMps': 'm/s',

  'cautions.own.when.windFromMps': 'm/s',

  'day.weather.airC': '°C',
  'day.weather.steelC': '°C',
  'day.weather.windMps': 'm/s',
  'day.weather.wbgtC': '°C',
  'day.forecast.airC': '°C',
  'day.forecast.steelC': '°C',
  'day.space.volumeM3': 'm³',
  'day.space.airM3PerMin': 'm³/min',
  'day.jobs.dftUm': 'µm',
  'day.jobs.areaM2': 'm²',
  'day.jobs.airBar': 'bar',
  'day.jobs.fluidBar': 'bar',
  'day.jobs.profileUm': 'µm',
  'day.jobs.liftM': 'm',
};
