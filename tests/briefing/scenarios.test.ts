import { describe, expect, it } from 'vitest';
import { buildBriefing } from '../../src/briefing/build.ts';
import type { Caution } from '../../src/briefing/caution.ts';
import type { DayFacts } from '../../src/briefing/rule.ts';
import { settledUse } from '../../src/facts/settled-solvent.ts';
import { fill, readWords } from './caution-md.ts';
import { factsOf, job, without, withRig, withSheet } from './days.ts';
import { muchLeft } from './every-day.ts';

const idsOf = (facts: DayFacts) => buildBriefing(facts, null).cautions.map(({ id }) => id);

function found(facts: DayFacts, id: string): Caution {
  const caution = buildBriefing(facts, null).cautions.find((one) => one.id === id);
  if (!caution) throw new Error(`${id} is not in this briefing`);
  return caution;
}
const rowsSaid = (caution: Caution) => caution.each.map((row) => fill(readWords(caution.id).each ?? '', row));
const whySaid = (caution: Caution) => fill(readWords(caution.id).why, caution.params);
const stepsSaid = (caution: Caution) => readWords(caution.id).steps.map((step) => fill(step, caution.params));

describe('a mild dry day outdoors with epoxy on one air-driven rig', () => {
  const facts = factsOf();

  it('says this and nothing else, what kills first at the front', () => {
    expect(idsOf(facts)).toEqual([
      'injection',
      'pressure-relief',
      'ignition',
      'earthing',
      'breathing',
      'hose-and-fittings',
      'first-response',
      'gun-inspection',
      'skin-and-eyes',
      'leftover-paint',
      'pot-life',
      'mixing',
      'flush',
      'wind',
      'surface-time',
      'suction-and-siphon',
      'tip-and-filters',
      'waste',
    ]);
  });

  it('gives the pressure: 45 : 1 at 5 bar is 225 bar', () => {
    const { params, each } = found(facts, 'injection');
    expect(params).toMatchObject({ rig: 'Rig 1', bar: 225 });
    expect(each).toEqual([{ rig: 'Rig 1', state: 'known', bar: 225 }]);
  });

  it('gives the flush: 30 m of 10 mm hose hold 2.356 L (geometry), three and two line volumes, 3 L a minute', () => {
    const line = 2.3562 + 0.5;
    const [row] = found(facts, 'flush').each;
    expect(row).toMatchObject({ primaryL: 8.8, secondaryL: 6, solvent: 'Solvent E', startBy: '15:47' });
    expect(row?.primaryL).toBeCloseTo(3 * line + 0.2, 1);
    expect(row?.minutes).toBe(Math.ceil(8 + (5 * line + 0.4) / 3));
  });

  it('says what solvent to bring: one flush of 5 line volumes and twice the drain line, in whole litres', () => {
    const line = 2.3562 + 0.5;
    expect(5 * line + 0.4).toBeCloseTo(14.68, 2);
    expect(rowsSaid(found(facts, 'flush'))[1]).toBe(
      'Rig 1: bring 15 L clean Solvent E for the day. Counted: one full flush',
    );
  });

  it('counts the flushes of the plan, one more before a break that the paint cannot wait out', () => {
    // 18 °C: between 300 min at 10 °C and 180 min at 20 °C, a quarter kept back. Four hours are too long, half an hour not.
    const bring = (to: string) => {
      const given = factsOf({ jobs: [job({ areaM2: 600 })], entry: { breaks: [{ from: '10:00', to }] } });
      return rowsSaid(found(given, 'flush')).at(-1);
    };
    expect(bring('10:30')).toMatch(/bring 15 L .*one full flush$/);
    expect(bring('14:00')).toMatch(/bring 30 L .*2 full flushes$/);
  });

  it('asks for a test fan at the interval of the site', () => {
    const every = (given: DayFacts) => stepsSaid(found(given, 'tip-and-filters')).at(-1);
    expect(every(facts)).toBe('Test fan on a scrap panel every 120 min. Note its width.');
    expect(every(factsOf({ policy: { testFanMinutes: 60 } }))).toContain('every 60 min');
  });

  it('names a compressor that gives less than the pump takes, with both figures', () => {
    // 521 at 225 bar and 1.0 kg/L, Cd 0.8: 0.8 × 0.7854 × 0.5334² × √(2 × 225e5 ÷ 1000) × 0.06 = 2.275 L/min;
    // air 45 × 2.275 × (5 + 1.01325) ÷ 1.01325 = 607.6 L/min, worked out by hand from the definitions.
    const given = (compressorLPerMin: number) =>
      rowsSaid(found(withRig(facts, 'rig-1', { compressorLPerMin }), 'tip-and-filters'))[0];
    expect(given(600)).toBe(
      'Rig 1, Grey epoxy: tip 521 gun filter 60 mesh. Takes about 608 L/min of air, the compressor gives 600 L/min: the pressure falls',
    );
    expect(given(608)).toBe('Rig 1, Grey epoxy: tip 521 gun filter 60 mesh');
  });

  it('takes the tip that is fitted before the one on the sheet', () => {
    const row = rowsSaid(found(factsOf({ jobs: [job({ tip: 'XR-9' })] }), 'tip-and-filters'))[0];
    expect(row).toBe('Rig 1, Grey epoxy: tip XR-9 gun filter 60 mesh');
  });

  it('gives the mix: 4 : 1 of a 20 L kit is 16 L and 4 L', () => {
    const [row] = found(facts, 'mixing').each;
    expect(row).toMatchObject({ ratio: '4 : 1', litres: 20, aL: 16, bL: 4, thinner: 'none' });
    expect(row).toMatchObject({ stand: 'known', wait: 20 });
  });

  it('gives the mix near enough to keep the ratio: 10 : 1 of 5 L is 4.545 L and 0.455 L, thinner rounded down', () => {
    const odd = withSheet(factsOf({ jobs: [job({ thinnerPct: 3.33 })] }), 'grey-epoxy', {
      mixRatio: { a: 10, b: 1 },
      kitLitres: 5,
    });
    const [row] = found(odd, 'mixing').each;
    // 5 · 10/11, 5/11 and 5 · 3.33 %.
    expect(row).toMatchObject({ litres: 5, aL: 4.545, bL: 0.455, thinnerL: 0.166 });
    expect(rowsSaid(found(odd, 'mixing'))[0]).toContain('5 L = 4.545 L A + 0.455 L B');
  });

  it('names the first aider and the way to the surgeon', () => {
    const caution = found(facts, 'first-response');
    expect(whySaid(caution)).toContain('surgical emergency');
    expect(whySaid(caution)).toMatch(/First aider: Ewa\.$/);
    expect(stepsSaid(caution).join(' ')).toMatch(/112: Gate 3, North Quay.*Harbour Hospital/);
  });

  it('says so when the first aider is not on the shift', () => {
    const caution = found(factsOf({ entry: { others: [] } }), 'first-response');
    expect(whySaid(caution)).toMatch(/First aider: Ewa \(off shift: who stands in\?\)\.$/);
    expect(stepsSaid(caution)[0]).toBe('Stop the rig. Call 112: Gate 3, North Quay.');
  });
});

describe('epoxy outdoors in the cold', () => {
  const facts = factsOf({ weather: { airC: 4, rhPct: 70, steelC: 3 } });

  it('warns of the cold and of steel under the limit, not of heat or a tank', () => {
    const ids = idsOf(facts);
    expect(ids).toEqual(expect.arrayContaining(['cold', 'weather']));
    for (const id of ['heat-for-people', 'confined-space']) expect(ids).not.toContain(id);
  });

  it('gives the limit that is missed with both numbers', () => {
    expect(rowsSaid(found(facts, 'weather'))).toContain('Grey epoxy: steel 3 °C, at least 10 °C – not met');
  });

  it('gives no credit for the cold: the pot life is that of the coldest line on the sheet', () => {
    expect(found(facts, 'pot-life').each[0]).toMatchObject({ minutes: 300, useBy: 225 });
  });

  it('says that colder than the sheet the mix stands longer than its figure', () => {
    expect(rowsSaid(found(facts, 'mixing'))[0]).toContain('stand longer than 20 min');
  });
});

describe('polyurethane in a tank in summer', () => {
  const jobs = [job({ coating: 'white-urethane', coat: 'finish', area: 'Tank 4', airBar: 6 })];
  const weather = { airC: 33, rhPct: 60, steelC: 40, sun: true };
  const facts = factsOf({ entry: { surroundings: 'confined' }, jobs, weather });

  it('starts with the tank, then the gun', () => {
    expect(idsOf(facts).slice(0, 2)).toEqual(['confined-space', 'injection']);
    expect(rowsSaid(found(facts, 'confined-space'))).toEqual(['Tank 4: White urethane']);
  });

  it('asks for air-fed gear and trained people', () => {
    const caution = found(facts, 'breathing');
    expect(whySaid(caution)).toContain('Isocyanate');
    expect(stepsSaid(caution).join(' ')).toMatch(/air-fed.*trained.* people/);
  });

  it('warns of heat with the number, place and sun', () => {
    expect(whySaid(found(facts, 'heat-for-people'))).toMatch(/^33 °C expected, sun\..*and walls hold heat/);
  });

  it('gives the heat index in shade and in full sun with its band, and what the coveralls are worth', () => {
    // 91.4 °F and 60 %: 103.1 °F in shade (NWS regression), 118.1 °F with the 15 °F of full sun.
    expect(rowsSaid(found(facts, 'heat-for-people'))).toEqual([
      'Heat index 40 °C in shade, up to 48 °C in full sun: danger',
      'Vapour-barrier coveralls: like 11 °C more on a WBGT meter',
    ]);
  });

  it('says it is warm enough for one spark: flash point 24 °C, air 33 °C', () => {
    expect(found(facts, 'ignition').params).toMatchObject({ warm: 'yes', place: 'confined' });
    expect(rowsSaid(found(facts, 'ignition'))[0]).toContain('flash point 24 °C');
  });

  it('shortens the pot life, and again in a hose in the sun', () => {
    const [row] = found(facts, 'pot-life').each;
    expect(Number(row?.minutes)).toBeLessThan(120);
    expect(Number(row?.minutes)).toBeGreaterThan(50);
    // 15 °C warmer: less than the 25 min that halving alone gives from 50 min at 35 °C to 45 °C.
    expect(Number(row?.hot)).toBeLessThan(25);
    expect(Number(row?.useBy) / Number(row?.minutes)).toBeCloseTo(0.75, 1);
  });

  it('leaves out the cold', () => {
    expect(idsOf(facts)).not.toContain('cold');
  });
});

describe('two rigs with two coatings', () => {
  const jobs = [
    job({ rig: 'rig-2', coating: 'grey-epoxy', area: 'Deck', fluidBar: 190 }),
    job({ rig: 'rig-1', coating: 'white-urethane', area: 'Hull', airBar: 5 }),
    job({ rig: 'rig-1', coating: 'grey-epoxy', area: 'Keel', airBar: 4 }),
  ];
  const facts = factsOf({ jobs });

  it('puts the higher pressure first and takes the highest of a rig with two jobs', () => {
    expect(found(facts, 'injection').each.map(({ rig, bar }) => [rig, bar])).toEqual([
      ['Rig 1', 225],
      ['Rig 2', 190],
    ]);
  });

  it('gives a flush for every coating on every rig, each with its own solvent', () => {
    const flushed = found(facts, 'flush').each.filter(({ state }) => state === 'known');
    expect(flushed.map(({ rig, solvent }) => [rig, solvent])).toEqual([
      ['Rig 1', 'Solvent E'],
      ['Rig 1', 'Solvent U'],
      ['Rig 2', 'Solvent E'],
    ]);
  });

  it('gives the pot life of each coating on each rig', () => {
    expect(found(facts, 'pot-life').each.map(({ coating, rig }) => [coating, rig])).toEqual([
      ['Grey epoxy', 'Rig 1, Rig 2'],
      ['White urethane', 'Rig 1'],
    ]);
  });

  it('names breathing for both, with the worse one deciding the gear', () => {
    expect(found(facts, 'breathing').params.air).toBe('fed');
    expect(rowsSaid(found(facts, 'breathing'))).toEqual([
      'Grey epoxy: no breathing code, but its mist is breathed',
      'White urethane: contains isocyanate',
    ]);
  });

  it('words the power-off by the drive', () => {
    expect(rowsSaid(found(facts, 'pressure-relief'))).toEqual([
      'Rig 1: power off means regulator backed off and air shut',
      'Rig 2: power off means switched off and unplugged',
    ]);
  });
});

describe('ratings', () => {
  it('stops nothing while the pressure is at or under the lowest rating', () => {
    const exact = withRig(factsOf(), 'rig-1', {
      ratings: [
        { part: 'hose', bar: 225 },
        { part: 'gun', bar: 345 },
      ],
    });
    expect(found(exact, 'hose-and-fittings').grade).toBe('must');
    expect(rowsSaid(found(exact, 'hose-and-fittings'))).toEqual(['Rig 1: 30 m of hose, one piece']);
  });

  it('stops with both numbers when the pressure is over the weakest part', () => {
    const caution = found(factsOf({ jobs: [job({ airBar: 6.5 })] }), 'hose-and-fittings');
    expect(caution.grade).toBe('stop');
    expect(rowsSaid(caution)).toEqual([
      'Rig 1: up to 293 bar, but the hose is rated 280 bar',
      'Rig 1: 30 m of hose, one piece',
    ]);
  });

  it('puts the weight of the paint on top where the gun is below the pump', () => {
    // 6 bar of air are 270 bar; 80 m of the heaviest such paint, 1.6 kg/L, are 1600 × 9.80665 × 80 = 12.55 bar more.
    const below = (liftM: number) => factsOf({ jobs: [job({ airBar: 6, liftM })] });
    expect(rowsSaid(found(below(-80), 'hose-and-fittings'))).toEqual([
      'Rig 1: up to 283 bar, but the hose is rated 280 bar',
      'Rig 1: 30 m of hose, one piece',
    ]);
    expect(found(below(80), 'hose-and-fittings').grade).toBe('must');
    expect(found(below(80), 'injection').params.bar).toBe(270);
    const light = withSheet(below(-80), 'grey-epoxy', { densityKgPerL: 1.1 });
    expect(found(light, 'hose-and-fittings').grade).toBe('must');
    expect(found(light, 'injection').params.bar).toBe(279);
  });

  it('stops when hose or gun has no rating, and says which', () => {
    const caution = found(factsOf({ jobs: [job({ rig: 'rig-3' })] }), 'hose-and-fittings');
    expect(rowsSaid(caution)).toEqual([
      'Rig 3: up to 340 bar, rating of the hose not known',
      'Rig 3: 20 m of hose, one piece',
    ]);
    expect(whySaid(caution)).toContain('Unknown counts as too weak');
  });

  it('puts a rig first whose pressure nobody knows, and stops it', () => {
    const jobs = [job(), job({ rig: 'rig-3', area: 'Deck' })];
    const { ratio: _ratio, ...noRatio } = factsOf({ jobs }).day.rigs['rig-3'] ?? {};
    const base = factsOf({ jobs });
    const facts = { ...base, day: { ...base.day, rigs: { ...base.day.rigs, 'rig-3': noRatio as never } } };
    expect(found(facts, 'injection').each.map(({ rig, state }) => [rig, state])).toEqual([
      ['Rig 3', 'unknown'],
      ['Rig 1', 'known'],
    ]);
    expect(rowsSaid(found(facts, 'hose-and-fittings'))).toEqual([
      'Rig 3: pressure not known, ratio or planned pressure missing',
      'Rig 3: neither pressure nor rating of the hose known',
      'Rig 1: 30 m of hose, one piece',
      'Rig 3: 20 m of hose, one piece',
    ]);
  });
});

describe('zinc silicate in dry air', () => {
  const facts = factsOf({
    jobs: [job({ coating: 'zinc-silicate' })],
    weather: { airC: 24, rhPct: 32, steelC: 24 },
  });

  it('says that the humidity is too low for it, and that charge stays', () => {
    expect(rowsSaid(found(facts, 'weather'))).toEqual([
      'Zinc silicate: humidity 32 %, at least 50 % – not met',
    ]);
    expect(whySaid(found(facts, 'earthing'))).toMatch(/[Dd]ry.*\(32 %\)/);
  });

  it('takes H336 as a reason for a respirator, not for air-fed gear', () => {
    const caution = found(facts, 'breathing');
    expect(caution.params.air).toBe('mask');
    expect(rowsSaid(caution)).toEqual(['Zinc silicate: H336']);
  });
});

describe('waterborne one-pack outdoors, flushed with water', () => {
  const facts = factsOf({ jobs: [job({ coating: 'wall-acrylic' })] });

  it('leaves out fire, charge, pot life and mixing, but never the jet and the mist', () => {
    expect(idsOf(facts)).toEqual([
      'injection',
      'pressure-relief',
      'breathing',
      'hose-and-fittings',
      'first-response',
      'gun-inspection',
      'flush',
      'wind',
      'surface-time',
      'wash-pot',
      'suction-and-siphon',
      'waste',
    ]);
  });

  it('asks for the respirator of the safety data sheet, checked before starting and kept on', () => {
    const caution = found(facts, 'breathing');
    expect(caution.grade).toBe('stop');
    expect(caution.params).toEqual({ air: 'sheet', isocyanate: 'no' });
    expect(whySaid(caution)).toBe('Mist and vapour can harm your lungs. No paint mist is harmless.');
    expect(stepsSaid(caution).slice(0, 2)).toEqual([
      "Wear the safety data sheet's respirator. Check fit and filter date first.",
      'Mixing, flushing, leaving: gear on, never lifted.',
    ]);
    expect(rowsSaid(caution)).toEqual(['Wall acrylic: no breathing code, but its mist is breathed']);
  });

  it('comes back to fire and earth when it is flushed with a solvent nobody knows', () => {
    const ids = idsOf(withSheet(facts, 'wall-acrylic', { flushSolvent: 'Solvent W' }));
    expect(ids).toEqual(expect.arrayContaining(['ignition', 'earthing']));
  });

  it('asks for air-fed gear indoors although no code does', () => {
    const caution = found(
      factsOf({ entry: { surroundings: 'enclosed' }, jobs: [job({ coating: 'wall-acrylic' })] }),
      'breathing',
    );
    expect(caution.params.air).toBe('fed');
    expect(rowsSaid(caution)).toEqual(['Wall acrylic: no breathing code, but vapour gathers in here']);
  });
});

describe('a sheet that says nothing', () => {
  const facts = factsOf({ jobs: [job({ coating: 'mystery' })] });

  it('is the hazardous case for breathing, skin and fire', () => {
    expect(found(facts, 'breathing').params.air).toBe('fed');
    expect(rowsSaid(found(facts, 'breathing'))).toEqual([
      'Mystery paint: harm not known from its codes, treat as hazardous',
    ]);
    expect(rowsSaid(found(facts, 'skin-and-eyes'))[0]).toContain('treat as hazardous');
    expect(rowsSaid(found(facts, 'ignition'))[0]).toContain('treat as flammable');
    expect(found(facts, 'ignition').params.warm).toBe('yes');
  });
});

describe('a polyurethane entered without isocyanate', () => {
  it('is treated as isocyanate until somebody has looked', () => {
    const facts = withSheet(factsOf({ jobs: [job({ coating: 'white-urethane' })] }), 'white-urethane', {
      isocyanate: false,
      hazards: ['H226'],
    });
    const caution = found(facts, 'breathing');
    expect(caution.params).toEqual({ air: 'fed', isocyanate: 'yes' });
    expect(rowsSaid(caution)[0]).toContain('until checked');
  });
});

describe('what the last shift left', () => {
  const facts = factsOf({ left: muchLeft });

  it('is told, the dangerous part first', () => {
    const ids = idsOf(facts);
    for (const id of [
      'rig-tagged',
      'unflushed-line',
      'open-concerns',
      'missed-steps',
      'recoat-window',
      'solvent-carry-over',
    ])
      expect(ids).toContain(id);
    expect(ids.indexOf('rig-tagged')).toBeLessThan(ids.indexOf('pressure-relief'));
  });

  it('tells tags with their reason, and an unflushed line once', () => {
    expect(rowsSaid(found(facts, 'rig-tagged'))).toEqual([
      'Rig 2: defect at the rig check – earth lead frayed',
      'Rig 1: defect reported',
      'rig-9: defect found in the flush – crack in the gun body',
    ]);
    // 15:00 UTC in May is 16:00 on the site's clock.
    expect(rowsSaid(found(facts, 'unflushed-line'))[0]).toBe('Rig 3: Grey epoxy, mixed 2026-05-11 16:00');
  });

  it('gives the settled solvent as first rinse only where it is the right one', () => {
    const uses = (given: DayFacts) => found(given, 'solvent-carry-over').each.map(({ use }) => use);
    expect(uses(facts)).toEqual(['rinse', 'idle', 'idle']);
    const jobs = [job({ coating: 'white-urethane' }), job({ rig: 'rig-3', area: 'Deck' })];
    expect(uses(factsOf({ jobs, left: muchLeft }))).toEqual(['wrong', 'idle', 'wrong']);
    expect(uses(withRig(facts, 'rig-1', { mayHoldSettledSolvent: false }))[0]).toBe('banned');
  });

  it('puts settled solvent into the flush only where it is the first rinse', () => {
    const first = (given: DayFacts) => stepsSaid(found(given, 'flush'))[1];
    expect(first(facts)).toBe('First flush: settled solvent to begin with, until paint is out.');
    expect(rowsSaid(found(facts, 'flush'))[0]).toContain(
      '8.8 L first, settled solvent to begin with, then 6 L',
    );
    const jobs = [job(), job({ rig: 'rig-3', area: 'Deck' })];
    const two = factsOf({ jobs, left: muchLeft });
    expect(first(two)).toBe('First flush: settled solvent only where named, until paint is out.');
    // Rig 1 and rig 3 after their coating, then what to bring to each.
    expect(rowsSaid(found(two, 'flush')).map((row) => row.includes('settled'))).toEqual([
      true,
      false,
      true,
      false,
    ]);
    const never = [
      factsOf(),
      factsOf({ jobs: [job({ coating: 'white-urethane' })], left: muchLeft }),
      withRig(facts, 'rig-1', { mayHoldSettledSolvent: false }),
      without(facts, 'rigs'),
    ];
    for (const given of never) {
      expect(first(given)).toBe('First flush: clean solvent, until paint is out.');
      expect(rowsSaid(found(given, 'flush')).join(' ')).not.toContain('settled');
    }
  });

  it('knows for each rig what its settled solvent is good for', () => {
    const use = (given: DayFacts, rig: string) => settledUse(given.day, given.carriedIn, rig);
    expect(['rig-1', 'rig-2', 'rig-9'].map((rig) => use(facts, rig))).toEqual(['rinse', 'idle', 'none']);
    expect(use(factsOf(), 'rig-1')).toBe('none');
    expect(use(factsOf({ jobs: [job({ coating: 'white-urethane' })], left: muchLeft }), 'rig-1')).toBe(
      'wrong',
    );
    expect(use(withRig(facts, 'rig-1', { mayHoldSettledSolvent: false }), 'rig-1')).toBe('banned');
  });

  it('names every step of a flush in words', () => {
    const rows = rowsSaid(found(facts, 'missed-steps'));
    expect(new Set(rows).size).toBe(13);
    for (const row of rows) expect(row).not.toMatch(/a step|_/);
  });

  it('says who raised a concern, by name where there is one', () => {
    expect(rowsSaid(found(facts, 'open-concerns'))).toEqual([
      'Cleo: the ladder at frame 12 is loose',
      'somebody: the fan was off over night',
    ]);
  });

  it('is silent when nothing was left', () => {
    const ids = idsOf(factsOf({ left: {} }));
    expect(ids).toEqual(idsOf(factsOf()));
  });
});

describe('figures that are published', () => {
  it('8 h of pot life are used within 6 h (US Army TM 55-1500-345-23)', () => {
    const facts = withSheet(factsOf({ weather: { airC: 23 } }), 'grey-epoxy', {
      potLife: [{ c: 23, minutes: 480 }],
    });
    expect(found(facts, 'pot-life').each[0]).toMatchObject({ minutes: 480, useBy: 360 });
  });

  it('dew point at 20 °C and 50 %: 9.27 °C (ASHRAE 2017 through psychrolib 1.1.1)', () => {
    const facts = factsOf({ weather: { airC: 20, rhPct: 50, steelC: 12 } });
    expect(found(facts, 'weather').params).toMatchObject({ dewC: 9.3, marginC: 2.7 });
    expect(rowsSaid(found(facts, 'weather'))[0]).toBe('Grey epoxy: margin 2.7 °C, at least 3 °C – not met');
  });

  it('30 : 1 at 6 bar is 180 bar', () => {
    const facts = withRig(factsOf({ jobs: [job({ airBar: 6 })] }), 'rig-1', { ratio: 30 });
    expect(found(facts, 'injection').each[0]).toMatchObject({ bar: 180 });
  });
});

describe('what decides', () => {
  const bars = (facts: DayFacts) => found(facts, 'injection').each.map(({ bar }) => bar);
  const unplanned = (facts: DayFacts): DayFacts => {
    const jobs = facts.day.entry.jobs.map(({ airBar: _air, fluidBar: _fluid, ...rest }) => rest);
    return { ...facts, day: { ...facts.day, entry: { ...facts.day.entry, jobs } } };
  };

  it('counts with the most a rig may be given when nothing was planned', () => {
    const facts = unplanned(factsOf({ jobs: [job(), job({ rig: 'rig-2', area: 'Deck' })] }));
    // 45 : 1 at its 7 bar, and the set limit of the electric rig.
    expect(bars(facts)).toEqual([315, 210]);
  });

  it('does not make a bar out of the last digit of a product', () => {
    // 45 times 4.4 is 198.00000000000003 in binary.
    expect(bars(factsOf({ jobs: [job({ airBar: 4.4 })] }))).toEqual([198]);
    expect(bars(factsOf({ jobs: [job({ airBar: 4.41 })] }))).toEqual([199]);
  });

  it('counts a flash point of 93 °C as flammable, and one of 94 °C not (UN GHS, chapter 2.6)', () => {
    const at = (flashPointC: number) =>
      withSheet(factsOf({ jobs: [job({ coating: 'wall-acrylic' })] }), 'wall-acrylic', { flashPointC });
    expect(rowsSaid(found(at(93), 'ignition'))[0]).toContain('flash point 93 °C');
    expect(found(at(93), 'ignition').params.warm).toBe('no');
    expect(idsOf(at(94))).not.toContain('ignition');
  });

  it('says a humidity that comes within 5 % of the limit, and not one that does not', () => {
    const ids = (rhPct: number) => idsOf(factsOf({ weather: { airC: 18, rhPct, steelC: 30 } }));
    expect(ids(80)).not.toContain('weather');
    expect(ids(81)).toContain('weather');
    const at = found(factsOf({ weather: { airC: 18, rhPct: 81, steelC: 30 } }), 'weather');
    expect(rowsSaid(at)).toEqual(['Grey epoxy: humidity 81 %, at most 85 % – close']);
  });

  it('asks for air-fed gear in a confined or enclosed space even where no code does', () => {
    const air = (surroundings: 'enclosed' | 'confined') =>
      found(factsOf({ entry: { surroundings } }), 'breathing').params.air;
    expect(air('enclosed')).toBe('fed');
    expect(air('confined')).toBe('fed');
    // Grey epoxy has no code for breathing either.
    expect(found(factsOf(), 'breathing').params.air).toBe('sheet');
  });
});

describe('heat by index, by meter and by the hour', () => {
  const rows = (wanted: Parameters<typeof factsOf>[0]) => rowsSaid(found(factsOf(wanted), 'heat-for-people'));
  const isSaid = (wanted: Parameters<typeof factsOf>[0]) =>
    idsOf(factsOf(wanted)).includes('heat-for-people');

  it('is said under 27 °C when the heat index reaches its first band of 80 °F', () => {
    // 80 °F is 26.67 °C: at 26 °C it takes wet air.
    expect(isSaid({ weather: { airC: 26, rhPct: 60 } })).toBe(false);
    expect(isSaid({ weather: { airC: 26.5, rhPct: 90 } })).toBe(true);
    expect(rows({ weather: { airC: 26.5, rhPct: 90 } })[0]).toBe('Heat index 30 °C in shade: caution');
  });

  it('is said on a cool day when the expected WBGT is too much for the coveralls, and only then', () => {
    // 300 W: 28.2 °C for people used to heat, 24.9 °C for others, both rounded down. Vapour-barrier adds 11 °C.
    const cool = { airC: 17, rhPct: 60 };
    expect(isSaid({ weather: { ...cool, wbgtC: 13.9 } })).toBe(false);
    expect(rows({ weather: { ...cool, wbgtC: 15 } })).toEqual([
      'WBGT 15 °C counts as 26 °C in vapour-barrier coveralls. Limit 28.2 °C; 24.9 °C for people new to the heat',
    ]);
    expect(isSaid({ weather: { ...cool, wbgtC: 15 }, policy: { coveralls: 'woven' } })).toBe(false);
    expect(rows({ weather: { airC: 30, rhPct: 60, wbgtC: 25 }, policy: { coveralls: 'woven' } })[1]).toBe(
      'WBGT 25 °C. Limit 28.2 °C; 24.9 °C for people new to the heat',
    );
  });

  it('harder work lowers the limits', () => {
    const said = rows({ weather: { airC: 30, rhPct: 60, wbgtC: 25 }, policy: { workW: 415 } });
    expect(said[1]).toContain('Limit 26.5 °C; 22.9 °C for people new to the heat');
  });

  it('takes the hottest hour of the shift, not one after it', () => {
    const forecast = [
      { at: '06:00', airC: 15 },
      { at: '13:00', airC: 33, rhPct: 60 },
      { at: '17:00', airC: 40 },
    ];
    const facts = factsOf({ entry: { forecast } });
    expect(found(facts, 'heat-for-people').params).toMatchObject({ airC: 33 });
    expect(rowsSaid(found(facts, 'heat-for-people'))[0]).toBe('Heat index 40 °C in shade: danger');
    expect(isSaid({ entry: { forecast, end: '12:30' } })).toBe(false);
  });

  it('counts what the chart has no figure for as the worst band', () => {
    expect(rows({ weather: { airC: 45, rhPct: 80 } })[0]).toBe(
      'Hotter than the heat index chart goes: extreme danger',
    );
  });
});

describe('days at the edge', () => {
  it('warns from 27 °C and up to 5 °C, exactly', () => {
    const ids = (airC: number) => idsOf(factsOf({ weather: { airC, rhPct: 20 } }));
    expect(ids(26.9)).not.toContain('heat-for-people');
    expect(ids(27)).toContain('heat-for-people');
    expect(ids(5.1)).not.toContain('cold');
    expect(ids(5)).toContain('cold');
  });

  it('gives the latest flush of a night shift on the next day with its date', () => {
    const facts = factsOf({ entry: { start: '22:00', end: '06:00' } });
    expect(found(facts, 'flush').each[0]?.startBy).toBe('2026-05-13 05:47');
  });

  it('says not to mix what the flush outlasts', () => {
    const facts = withSheet(factsOf({ policy: { flushFixedMinutes: 60 } }), 'grey-epoxy', {
      potLife: [{ c: 20, minutes: 40 }],
    });
    expect(rowsSaid(found(facts, 'pot-life'))[0]).toMatch(/shorter than this rig's flush\. Do not mix/);
  });

  it('keeps the flush in time when the reserve is shorter than the flush', () => {
    const facts = withSheet(
      factsOf({ policy: { flushFixedMinutes: 40 }, weather: { airC: 20 } }),
      'grey-epoxy',
      {
        potLife: [{ c: 20, minutes: 100 }],
      },
    );
    // 100 min less 44.9 min of flush is earlier than the 75 min that the reserve leaves.
    expect(found(facts, 'pot-life').each[0]).toMatchObject({ minutes: 100, useBy: 55 });
  });

  it('takes unmeasured steel at air temperature and says so', () => {
    const caution = found(factsOf({ weather: { rhPct: 80, steelC: undefined } }), 'weather');
    expect(caution.params).toMatchObject({ steel: 'taken', steelC: 18 });
    expect(whySaid(caution)).toContain('not measured');
  });

  it('still briefs when the day refers to what it does not hold', () => {
    for (const what of ['rigs', 'coatings', 'people'] as const) {
      const ids = idsOf(without(factsOf({ left: muchLeft }), what));
      expect(ids).toEqual(expect.arrayContaining(['injection', 'first-response', 'pressure-relief']));
    }
    const noRigs = without(factsOf(), 'rigs');
    expect(idsOf(noRigs)).toContain('hose-and-fittings');
    expect(rowsSaid(found(noRigs, 'pot-life'))[0]).toContain('Do not mix');
    const noSheets = without(factsOf(), 'coatings');
    expect(found(noSheets, 'breathing').params.air).toBe('fed');
    expect(rowsSaid(found(noSheets, 'mixing'))[0]).toContain('ratio not known, do not mix');
  });
});
