import { changed, goodPack } from './good-pack.ts';

export interface BrokenPack {
  readonly name: string;
  readonly changes: Readonly<Record<string, string | Uint8Array | null>>;
  /** Every problem, in order, word for word; paths without the pack's folder. */
  readonly says: readonly string[];
}

const all = (file: string) => goodPack[file] ?? '';

export const brokenPacks: readonly BrokenPack[] = [
  // ---- files -------------------------------------------------------------------------------------------------------
  {
    name: 'a missing file',
    changes: { 'rigs.yaml': null },
    says: ['rigs.yaml:1:1: the file is missing. Found nothing. Write: create this file'],
  },
  {
    name: 'a file with another ending',
    changes: { 'site.yaml': null, 'site.yml': all('site.yaml') },
    says: ['site.yaml:1:1: the file is missing. Found "site.yml". Write: site.yaml as the name of that file'],
  },
  {
    name: 'no policy',
    changes: { 'policy.yaml': null },
    says: [
      'policy.yaml:1:1: the file is missing. Found nothing. Write: create this file; with nothing in it all defaults hold',
    ],
  },
  {
    name: 'no coating sheets',
    changes: { 'coatings.yaml': null },
    says: [
      'coatings.yaml:1:1: there are no coating sheets. Found nothing. Write: create this file with a list of coating sheets, or a folder coatings/ with a .yaml file for each',
    ],
  },
  {
    name: 'a folder in place of a file',
    changes: { 'rigs.yaml': null, 'rigs.yaml/one.yaml': 'id: x' },
    says: ['rigs.yaml:1:1: this is a folder, not a file. Found nothing. Write: a text file with this name'],
  },
  {
    name: 'a file in place of a folder',
    changes: { 'days/monday.yaml': null, days: 'none' },
    says: [
      'days:1:1: this is a file, not a folder. Found nothing. Write: a folder days with one file for each entry',
    ],
  },
  {
    name: 'an empty file',
    changes: { 'people.yaml': '# nobody yet\n' },
    says: [
      'people.yaml:1:1: there is nothing in this file. Found nothing. Write: at least one entry; it begins with "- id: "',
    ],
  },
  {
    name: 'an empty list',
    changes: { 'rigs.yaml': '[]\n' },
    says: [
      'rigs.yaml:1:1: there is nothing in this file. Found nothing. Write: at least one entry; it begins with "- id: "',
    ],
  },
  {
    name: 'a file in another encoding',
    changes: { 'site.yaml': new Uint8Array([0x6e, 0x61, 0xe9, 0x3a]) },
    says: [
      'site.yaml:1:1: this is not UTF-8 text. Found nothing. Write: save it again as plain text with the encoding UTF-8',
    ],
  },
  {
    name: 'a file far too large',
    changes: { 'policy.yaml': `# ${'x'.repeat(1024 * 1024)}` },
    says: [
      'policy.yaml:1:1: the file is larger than 1 MiB. Found nothing. Write: a smaller file: was another one copied over it?',
    ],
  },
  // ---- punctuation ---------------------------------------------------------------------------------------------------
  {
    name: 'a tab',
    changes: changed('site.yaml', '  address:', '\taddress:'),
    says: [
      'site.yaml:7:1: a tab stands where only spaces may stand. Found "address: Gate 1". Write: two spaces for each step to the right (set your editor to spaces)',
    ],
  },
  {
    name: 'a field written twice',
    changes: changed('site.yaml', 'prestart:', 'name: South Jetty\nprestart:'),
    says: [
      'site.yaml:4:1: this field is written twice. Found "name". Write: it once, with the value that is right',
    ],
  },
  {
    name: 'a bracket not closed',
    changes: changed('people.yaml', '[sprayer]', '[sprayer'),
    says: [
      'people.yaml:10:1: the line is not indented like its neighbours, or a bracket is not closed. Found "- id: dora". Write: the same number of spaces as the line it belongs with, and a closing bracket for each opening one',
    ],
  },
  {
    name: 'a quote not closed',
    changes: changed('site.yaml', '"06:40"', '"06:40'),
    says: [
      'site.yaml:4:17: a colon, a quote or a bracket is missing. Found "prestart: "06:40". Write: a field name, a colon, a space and the value; close every quote and bracket',
    ],
  },
  {
    name: 'a colon forgotten',
    changes: changed('site.yaml', 'name: North Jetty', 'name North Jetty'),
    says: [
      'site.yaml:2:1: a colon, a quote or a bracket is missing on this line or the one before. Found "name North Jetty". Write: a field name, a colon, a space and the value, all on one line',
    ],
  },
  {
    name: 'a line indented too far',
    changes: changed('site.yaml', 'name:', '  name:'),
    says: [
      'site.yaml:1:5: two fields on one line, or the line below is indented too far. Found "id: north-jetty". Write: one field a line, indented like its neighbours; a text with ": " in it goes in quotes',
    ],
  },
  {
    name: 'a text with a colon',
    changes: changed('site.yaml', 'Gate 1', 'Gate 1: the green one'),
    says: [
      'site.yaml:7:12: two fields on one line, or the line below is indented too far. Found "address: Gate 1: the green one". Write: one field a line, indented like its neighbours; a text with ": " in it goes in quotes',
    ],
  },
  {
    name: 'a text that begins with @',
    changes: changed('site.yaml', 'Gate 1', '@gate'),
    says: [
      'site.yaml:7:12: a value cannot begin with this character. Found "address: @gate". Write: the value in quotes, for example "@shed"',
    ],
  },
  {
    name: 'a second document',
    changes: { 'policy.yaml': 'lossPct: 30\n---\nlossPct: 40\n' },
    says: [
      'policy.yaml:2:1: the line --- begins a second document. Found "---". Write: one document in a file: take "---" out',
    ],
  },
  {
    name: 'values that multiply each other',
    changes: { 'policy.yaml': 'a: &a [1, 1, 1]\nb: &b [*a, *a, *a]\nc: [*b, *b, *b]\n' },
    says: [
      'policy.yaml:1:7: a value is given a name with &, which is not used here. Found "&a". Write: the value without "&a", written out in full wherever it is needed',
      'policy.yaml:2:7: a value is given a name with &, which is not used here. Found "&b". Write: the value without "&b", written out in full wherever it is needed',
      'policy.yaml:2:8: a value is copied from elsewhere with *, which is not used here. Found "*a". Write: the value itself, written out in full',
      'policy.yaml:2:12: a value is copied from elsewhere with *, which is not used here. Found "*a". Write: the value itself, written out in full',
      'policy.yaml:2:16: a value is copied from elsewhere with *, which is not used here. Found "*a". Write: the value itself, written out in full',
      'policy.yaml:3:5: a value is copied from elsewhere with *, which is not used here. Found "*b". Write: the value itself, written out in full',
      'policy.yaml:3:9: a value is copied from elsewhere with *, which is not used here. Found "*b". Write: the value itself, written out in full',
      'policy.yaml:3:13: a value is copied from elsewhere with *, which is not used here. Found "*b". Write: the value itself, written out in full',
    ],
  },
  {
    name: 'a value marked with a type',
    changes: changed('site.yaml', '"112"', '!!binary MTEy'),
    says: [
      'site.yaml:6:18: a value is marked with a type (!), which is not used here. Found "!binary". Write: the value alone, without the word that begins with "!"',
    ],
  },
  {
    name: 'brackets without end',
    changes: { 'policy.yaml': '['.repeat(5000) },
    says: [
      'policy.yaml:1:1: this is nested too deeply to be read. Found nothing. Write: no more than a few levels of brackets or of indented lines',
    ],
  },
  // ---- values --------------------------------------------------------------------------------------------------------
  {
    name: 'an unknown time zone',
    changes: changed('site.yaml', 'Europe/Lisbon', 'Lisbon'),
    says: [
      'site.yaml:3:11 site.timeZone: not a known IANA time zone. Found "Lisbon". Write: one such as "Europe/Lisbon"',
    ],
  },
  {
    name: 'a time without its 0',
    changes: changed('site.yaml', '"06:40"', '6:40'),
    says: [
      'site.yaml:4:11 site.prestart: this is not written the way it must be. Found "6:40". Write: a 24-hour time in quotes, for example "06:40"',
    ],
  },
  {
    name: 'a number where text belongs',
    changes: changed('site.yaml', '"112"', '112'),
    says: [
      'site.yaml:6:9 site.emergency.call: text is expected here. Found "112". Write: "112", in quotes; text of at most 40 characters, such as call: "112" (emergency number on this site)',
    ],
  },
  {
    name: 'a missing field',
    changes: changed('site.yaml', '  hospital: Harbour Hospital\n', ''),
    says: [
      'site.yaml:5:1 site.emergency.hospital: this field is missing. Found nothing. Write: hospital: County Hospital, emergency entrance (nearest emergency department with hand surgery; text of at most 120 characters)',
    ],
  },
  {
    name: 'nothing after a field',
    changes: changed('site.yaml', 'Harbour Hospital', ''),
    says: [
      'site.yaml:8:3 site.emergency.hospital: nothing is written after this field. Found nothing. Write: text of at most 120 characters, such as hospital: County Hospital, emergency entrance (nearest emergency department with hand surgery)',
    ],
  },
  {
    name: 'a misspelt field',
    changes: changed('site.yaml', 'timeZone', 'timezone'),
    says: [
      'site.yaml:3:1 site.timezone: there is no field "timezone" here. Found "timezone". Write: timeZone, if that was meant; the fields here are id, name, timeZone, language, units, altitudeM, prestart, emergency, slack, teams, demo',
    ],
  },
  {
    name: 'a field that does not exist',
    changes: changed('rigs.yaml', 'ratio: 45', 'ratio: 45\n  colour: red'),
    says: [
      'rigs.yaml:5:3 rigs.rig-1.colour: there is no field "colour" here. Found "colour". Write: nothing, take it out; the fields here are id, name, drive, ratio, maxAirBar, maxFluidBar, ratings, hoses, pumpAndFilterLitres, drainLineLitres, litresPerCycle, flushCyclesPerMinute, wheels, components, hoseColour, compressorLPerMin, mayHoldSettledSolvent',
    ],
  },
  {
    name: 'a field with a dangerous name',
    changes: changed('policy.yaml', 'lossPct: 35', '__proto__: { lossPct: 1 }'),
    says: [
      'policy.yaml:1:1 policy.__proto__: there is no field "__proto__" here. Found "__proto__". Write: nothing, take it out; the fields here are lossPct, reservePct, marginMinC, rhMaxPct, readingEveryMinutes, warnBeforeMinutes, chaseSignOffMinutes, foremanAfterMinutes, safetyAfterMinutes, repeatEveryMinutes, lineVolumesPrimary, lineVolumesSecondary, lineVolumesToRenew, flushFixedMinutes, flushStepMinutes, warmHoseAddsC, lelFractionPct, windMaxMps, surfaceHours, testFanMinutes, fanWornPct, coveralls, workW, gunOnPct',
    ],
  },
  {
    name: 'a group where text belongs',
    changes: changed('people.yaml', 'name: Cid', 'name: { first: Cid }'),
    says: [
      'people.yaml:8:3 people.cid.name: text is expected here. Found "{ first: Cid }". Write: text of at most 60 characters, such as name: Marta (name the crew knows the person by)',
    ],
  },
  {
    name: 'text where a group belongs',
    changes: changed('coatings.yaml', '{ a: 4, b: 1 }', '4:1'),
    says: [
      'coatings.yaml:5:13 coatings.epoxy-mid.mixRatio: a group of fields is expected here. Found "4:1". Write: a group of the fields a, b, such as mixRatio: { a: 4, b: 1 } (parts by volume, base to hardener)',
    ],
  },
  {
    name: 'no list of people',
    changes: { 'people.yaml': 'id: ana\nname: Ana\nroles: [foreman, safety]\n' },
    says: [
      'people.yaml:1:1 people: a list is expected in this file. Found "id: ana name: Ana roles: [foreman, safe…". Write: each entry beginning with "- id: ", its other fields below it, two spaces further in',
    ],
  },
  {
    name: 'a list item that is only a name',
    changes: { 'rigs.yaml': '- rig-1\n- rig-2\n', 'days/monday.yaml': null },
    says: [
      'rigs.yaml:1:3 rigs.#1: a group of fields is expected here. Found "rig-1". Write: a group of the fields id, name, drive, ratio, maxAirBar, maxFluidBar, ratings, hoses, pumpAndFilterLitres, drainLineLitres, litresPerCycle, flushCyclesPerMinute, wheels, components, hoseColour, compressorLPerMin, mayHoldSettledSolvent',
      'rigs.yaml:2:3 rigs.#2: a group of fields is expected here. Found "rig-2". Write: a group of the fields id, name, drive, ratio, maxAirBar, maxFluidBar, ratings, hoses, pumpAndFilterLitres, drainLineLitres, litresPerCycle, flushCyclesPerMinute, wheels, components, hoseColour, compressorLPerMin, mayHoldSettledSolvent',
    ],
  },
  {
    name: 'an id with a capital',
    changes: changed('people.yaml', 'id: dora', 'id: Dora'),
    says: [
      'people.yaml:10:7 people.Dora.id: this is not written the way it must be. Found "Dora". Write: 1 to 40 small letters, digits and hyphens, for example "rig-1"',
      'days/monday.yaml:15:14 day.jobs.#1.mixers.#1: there is no person with this id. Found "dora". Write: Dora, if that was meant; one of ana, ben, cid, Dora; or add it to people.yaml',
    ],
  },
  {
    name: 'an unknown role',
    changes: changed('people.yaml', '[sprayer]', '[sprayer, sprayr]'),
    says: [
      'people.yaml:9:20 people.cid.roles.#2: this is not one of the values allowed here. Found "sprayr". Write: sprayer, if that was meant; one of foreman, safety, sprayer, mixer, standby, helper, such as roles: [sprayer] (what the person may do)',
    ],
  },
  {
    name: 'roles without brackets',
    changes: changed('people.yaml', '[mixer]', 'mixer'),
    says: [
      'people.yaml:12:10 people.dora.roles: a list is expected here. Found "mixer". Write: [mixer], in brackets; a list, such as roles: [sprayer] (what the person may do)',
    ],
  },
  {
    name: 'no in place of false',
    changes: changed('people.yaml', '  name: Dora', '  name: Dora\n  hasPhone: no'),
    says: [
      'people.yaml:12:13 people.dora.hasPhone: true or false is expected here. Found "no". Write: false; true or false, such as hasPhone: true (false: the foreman witnesses the sign-off)',
    ],
  },
  {
    name: 'a mix ratio of 0',
    changes: changed('coatings.yaml', '{ a: 4, b: 1 }', '{ a: 0, b: 1 }'),
    says: [
      'coatings.yaml:5:18 coatings.epoxy-mid.mixRatio.a: this must be more than 0. Found "0". Write: a number above 0, at most 100, such as a: 4 (parts of base by volume)',
    ],
  },
  {
    name: 'a temperature of 280',
    changes: changed('coatings.yaml', 'c: 23, minutes: 120', 'c: 280, minutes: 120'),
    says: [
      'coatings.yaml:9:12 coatings.epoxy-mid.potLife.#2.c: this is more than 80. Found "280". Write: a number from −40 to 80, such as c: 23 (paint temperature, °C)',
    ],
  },
  {
    name: 'a number with its unit',
    changes: changed('coatings.yaml', 'minutes: 120', 'minutes: 120 min'),
    says: [
      'coatings.yaml:9:25 coatings.epoxy-mid.potLife.#2.minutes: a number is expected here. Found "120 min". Write: 120, the number alone; a number above 0, at most 10080, such as minutes: 120 (minutes at that temperature)',
    ],
  },
  {
    name: 'a decimal comma',
    changes: changed('coatings.yaml', 'flashPointC: 31', 'flashPointC: 31,5'),
    says: [
      'coatings.yaml:12:16 coatings.epoxy-mid.flashPointC: a number is expected here. Found "31,5". Write: 31.5, with a point; a number from −60 to 300, such as flashPointC: 27 (flash point of the mixed paint, °C)',
    ],
  },
  {
    name: 'a number in quotes',
    changes: changed('coatings.yaml', 'volumeSolids: 80', 'volumeSolids: "80"'),
    says: [
      'coatings.yaml:6:17 coatings.epoxy-mid.volumeSolids: a number is expected here. Found "80". Write: 80, without quotes; a number above 0, at most 100, such as volumeSolids: 80 (volume solids, per cent, unthinned)',
    ],
  },
  {
    name: 'a number without end',
    changes: changed('coatings.yaml', 'volumeSolids: 80', 'volumeSolids: .inf'),
    says: [
      'coatings.yaml:6:17 coatings.epoxy-mid.volumeSolids: a number is expected here. Found ".inf". Write: a number above 0, at most 100, such as volumeSolids: 80 (volume solids, per cent, unthinned)',
    ],
  },
  {
    name: 'a tip without quotes',
    changes: changed('coatings.yaml', '"519"', '519'),
    says: [
      'coatings.yaml:16:8 coatings.epoxy-mid.tip: text is expected here. Found "519". Write: "519", in quotes; text of at most 10 characters, such as tip: "519" (tip the sheet gives)',
    ],
  },
  {
    name: 'an unknown family',
    changes: changed('coatings.yaml', 'family: epoxy', 'family: epoxi'),
    says: [
      'coatings.yaml:3:11 coatings.epoxy-mid.family: this is not one of the values allowed here. Found "epoxi". Write: epoxy, if that was meant; one of epoxy, polyurethane, zinc-silicate, zinc-epoxy, polysiloxane, alkyd, acrylic, other, such as family: epoxy (generic type of binder)',
    ],
  },
  {
    name: 'three parts',
    changes: changed('coatings.yaml', 'parts: 2', 'parts: 3'),
    says: [
      'coatings.yaml:4:10 coatings.epoxy-mid.parts: this is not one of the values allowed here. Found "3". Write: 1 or 2, such as parts: 2 (1 for one-pack, 2 for two-pack)',
    ],
  },
  {
    name: 'a hazard with its sentence',
    changes: changed('coatings.yaml', 'H317]', 'H317 skin]'),
    says: [
      'coatings.yaml:14:19 coatings.epoxy-mid.hazards.#2: this is not written the way it must be. Found "H317 skin". Write: copy the code only, for example "H317"',
    ],
  },
  {
    name: 'isocyanate left out',
    changes: changed('coatings.yaml', '  isocyanate: false\n', ''),
    says: [
      'coatings.yaml:1:3 coatings.epoxy-mid.isocyanate: this field is missing. Found nothing. Write: isocyanate: true (true when the hardener has isocyanate, also when in doubt; true or false)',
    ],
  },
  {
    name: 'film limits the wrong way round',
    changes: changed('coatings.yaml', '{ min: 100, max: 200 }', '{ min: 200, max: 100 }'),
    says: [
      'coatings.yaml:13:3 coatings.epoxy-mid.dft: min is larger than max. Found "{ min: 200, max: 100 }". Write: a group of the fields min, max, such as dft: { min: 100, max: 200 } (dry film the sheet allows in one coat, µm)',
    ],
  },
  {
    name: 'pot life misspelt',
    changes: changed('coatings.yaml', '  potLife: [{', '  potlife: [{'),
    says: [
      'coatings.yaml:23:3 coatings.pu-finish.potlife: there is no field "potlife" here. Found "potlife". Write: potLife, if that was meant; the fields here are id, name, family, parts, mixRatio, kitLitres, volumeSolids, potLife, induction, thinner, flushSolvent, flashPointC, flushFlashPointC, densityKgPerL, vapour, dft, limits, recoat, hazards, isocyanate, filterMesh, tip',
    ],
  },
  {
    name: 'a one-pack with a mix ratio',
    changes: changed('coatings.yaml', 'parts: 2', 'parts: 1'),
    says: [
      'coatings.yaml:5:3 coatings.epoxy-mid.mixRatio: a one-pack has no mix ratio. Found "{ a: 4, b: 1 }". Write: take it out or write parts: 2',
    ],
  },
  {
    name: 'a pot life that grows with heat',
    changes: changed('coatings.yaml', 'c: 23, minutes: 120', 'c: 23, minutes: 240'),
    says: [
      'coatings.yaml:7:3 coatings.epoxy-mid.potLife: 240 min at 23 °C is longer than 180 min at 15 °C. Found "- { c: 15, minutes: 180 } - { c: 23, mi…". Write: check the sheet',
    ],
  },
  {
    name: 'a recoat row that closes before it opens',
    changes: changed(
      'coatings.yaml',
      '  dft: { min: 100, max: 200 }\n',
      '  dft: { min: 100, max: 200 }\n  recoat: [{ toC: 20, minHours: 16, maxHours: 8 }]\n',
    ),
    says: [
      'coatings.yaml:14:3 coatings.epoxy-mid.recoat: 8 cannot be right here: it must be a number from 16 to 8760 h. Found "[{ toC: 20, minHours: 16, maxHours: 8 }]". Write: copy the row from the data sheet again',
    ],
  },
  {
    name: 'a recoat table that grows with heat',
    changes: changed(
      'coatings.yaml',
      '  dft: { min: 100, max: 200 }\n',
      '  dft: { min: 100, max: 200 }\n  recoat: [{ toC: 20, minHours: 8 }, { toC: 30, minHours: 9 }]\n',
    ),
    says: [
      'coatings.yaml:14:3 coatings.epoxy-mid.recoat: 9 cannot be right here: it must be no longer at 30 °C than the 8 h at 20 °C. Found "[{ toC: 20, minHours: 8 }, { toC: 30, m…". Write: warmth shortens both times. Copy the row from the data sheet again',
    ],
  },
  {
    name: 'a pot life that cannot be',
    changes: changed('coatings.yaml', 'c: 23, minutes: 120', 'c: 16, minutes: 60'),
    says: [
      'coatings.yaml:7:3 coatings.epoxy-mid.potLife: 60 cannot be right here: it must be less far from the 180 min at 15 °C than it is at 16 °C. Found "- { c: 15, minutes: 180 } - { c: 16, mi…". Write: no coating goes off more than 20 times faster for 10 °C: copy both lines again',
    ],
  },
  {
    name: 'a sheet with a wrong type and a missing mix ratio: both are said',
    changes: {
      'coatings.yaml': all('coatings.yaml')
        .replace('  mixRatio: { a: 6, b: 1 }\n', '')
        .replace('volumeSolids: 57', 'volumeSolids: 57 %'),
    },
    says: [
      'coatings.yaml:17:3 coatings.pu-finish.mixRatio: a two-pack needs its mix ratio. Found nothing. Write: copy the parts by volume from the data sheet: { a: 4, b: 1 }',
      'coatings.yaml:21:17 coatings.pu-finish.volumeSolids: a number is expected here. Found "57 %". Write: 57, the number alone; a number above 0, at most 100, such as volumeSolids: 80 (volume solids, per cent, unthinned)',
    ],
  },
  {
    name: 'no hoses',
    changes: changed('rigs.yaml', 'hoses:\n    - { boreMm: 10, lengthM: 30 }', 'hoses: []'),
    says: [
      'rigs.yaml:8:3 rigs.rig-1.hoses: the list is empty. Found "[]". Write: a list, such as hoses: [{ boreMm: 10, lengthM: 30 }] (hose sections from pump to gun)',
    ],
  },
  {
    name: 'an unknown part',
    changes: changed('rigs.yaml', 'part: hose', 'part: horse'),
    says: [
      'rigs.yaml:6:15 rigs.rig-1.ratings.#1.part: this is not one of the values allowed here. Found "horse". Write: hose, if that was meant; one of pump, filter, hose, swivel, gun, tip-guard, such as part: hose (the part that carries the stamp)',
    ],
  },
  {
    name: 'a rating too low to be one',
    changes: changed('rigs.yaml', 'bar: 280', 'bar: 0.5'),
    says: [
      'rigs.yaml:5:3 rigs.rig-1.ratings: 0.5 cannot be right here: it must be a number from 1 to 1500 bar. Found "- { part: hose, bar: 0.5 } - { part: gu…". Write: read it from the hose itself',
    ],
  },
  {
    name: 'a reserve below a quarter',
    changes: changed('policy.yaml', 'reservePct: 30', 'reservePct: 20'),
    says: [
      'policy.yaml:2:13 policy.reservePct: this is less than 25. Found "20". Write: a number from 25 to 90, such as reservePct: 25 (pot life kept back for purging and cleaning, per cent)',
    ],
  },
  {
    name: 'a dew-point margin below 3',
    changes: changed('policy.yaml', 'lossPct: 35', 'marginMinC: 2'),
    says: [
      'policy.yaml:1:13 policy.marginMinC: this is less than 3. Found "2". Write: a number from 3 to 20, such as marginMinC: 3 (least steel temperature over dew point, °C)',
    ],
  },
  // ---- across files --------------------------------------------------------------------------------------------------
  {
    name: 'a first aider nobody knows',
    changes: changed('site.yaml', 'firstAider: ben', 'firstAider: benn'),
    says: [
      'site.yaml:9:15 site.emergency.firstAider: there is no person with this id. Found "benn". Write: ben, if that was meant; one of ana, ben, cid, dora; or add it to people.yaml',
    ],
  },
  {
    name: 'nobody to post the day',
    changes: changed('people.yaml', '[foreman]', '[helper]'),
    says: [
      'people.yaml:1:1 people: nobody has the role foreman, who posts the day and answers bells. Found nothing. Write: roles: [foreman] for at least one person',
    ],
  },
  {
    name: 'nobody for the last bell',
    changes: changed('people.yaml', '[safety]', '[helper]'),
    says: [
      'people.yaml:1:1 people: nobody has the role safety, whom an unanswered bell reaches last. Found nothing. Write: roles: [safety] for at least one person',
    ],
  },
  {
    name: 'an id used twice',
    changes: changed('people.yaml', 'id: dora', 'id: cid'),
    says: [
      'people.yaml:10:7 people.cid.id: this id is used twice, first at people.yaml:7. Found "cid". Write: another id; each one may be used once',
      'days/monday.yaml:15:14 day.jobs.#1.mixers.#1: there is no person with this id. Found "dora". Write: one of ana, ben, cid; or add it to people.yaml',
    ],
  },
  {
    name: 'one Slack member for two people',
    changes: {
      'people.yaml': all('people.yaml')
        .replace('  name: Ana', '  name: Ana\n  slack: U0ANA00001')
        .replace('  name: Dora', '  name: Dora\n  slack: U0ANA00001'),
    },
    says: [
      'people.yaml:13:10 people.dora.slack: this Slack member id is used twice, first at people.yaml:3. Found "U0ANA00001". Write: the id from this person\'s own profile in Slack',
    ],
  },
  {
    name: 'a name for a Slack member id, and a channel for one',
    changes: {
      'people.yaml': all('people.yaml')
        .replace('  name: Ana', '  name: Ana\n  slack: "@ana"')
        .replace('  name: Cid', '  name: Cid\n  slack: C0CREW1234'),
    },
    says: [
      'people.yaml:3:10 people.ana.slack: this is no Slack member id. Found "@ana". Write: the one from the profile in Slack ("Copy member ID"), such as U0MARTA123',
      'people.yaml:10:10 people.cid.slack: this is no Slack member id. Found "C0CREW1234". Write: the one from the profile in Slack ("Copy member ID"), such as U0MARTA123',
    ],
  },
  {
    name: 'a name for a Slack channel id',
    changes: { 'site.yaml': `${all('site.yaml')}slack: { channel: dock-two }\n` },
    says: [
      'site.yaml:12:19 site.slack.channel: this is no Slack channel id. Found "dock-two". Write: the one at the foot of the channel details in Slack, such as C0CREW1234',
    ],
  },
  {
    name: 'one Teams member for two people',
    changes: {
      'people.yaml': all('people.yaml')
        .replace('  name: Ana', '  name: Ana\n  teams: 00000000-0000-4000-8000-0000000000a1')
        .replace('  name: Dora', '  name: Dora\n  teams: 00000000-0000-4000-8000-0000000000a1'),
    },
    says: [
      'people.yaml:13:10 people.dora.teams: this Teams member id is used twice, first at people.yaml:3. Found "00000000-0000-4000-8000-0000000000a1". Write: this person\'s own Object ID from Microsoft Entra',
    ],
  },
  {
    name: 'an address for a Teams member id, and a link for a Teams channel id',
    changes: {
      'people.yaml': all('people.yaml').replace('  name: Ana', '  name: Ana\n  teams: ana@yard.test'),
      'site.yaml': `${all('site.yaml')}teams: { channel: "19%3acrew%40thread.tacv2" }\n`,
    },
    says: [
      'site.yaml:12:19 site.teams.channel: this is no Teams channel id. Found "19%3acrew%40thread.tacv2". Write: the part of "Get link to channel" from 19 on, with : for %3A and @ for %40, such as 19:crew@thread.tacv2',
      'people.yaml:3:10 people.ana.teams: this is no Teams member id. Found "ana@yard.test". Write: the person\'s Object ID from Microsoft Entra, such as 00000000-0000-4000-8000-0000000000a1',
    ],
  },
  {
    name: 'a coating twice, in two files',
    changes: {
      'coatings/epoxy.yaml':
        all('coatings.yaml').split('- id: pu-finish')[0]?.replace('- id', '  id').replace(/^ {2}/gm, '') ??
        '',
    },
    says: [
      'coatings/epoxy.yaml:1:5 coatings.epoxy-mid.id: this id is used twice, first at coatings.yaml:1. Found "epoxy-mid". Write: another id; each one may be used once',
    ],
  },
  {
    name: 'an air-driven rig without ratio',
    changes: changed('rigs.yaml', '  ratio: 45\n', ''),
    says: [
      'rigs.yaml:3:10 rigs.rig-1.drive: an air-driven rig needs its ratio: without it the pressure in the line is unknown. Found "air". Write: ratio: 45 on a line of its own, with the figure from the plate of the pump',
    ],
  },
  {
    name: 'an electric rig without limit',
    changes: changed('rigs.yaml', '  maxFluidBar: 220\n', ''),
    says: [
      'rigs.yaml:14:10 rigs.rig-2.drive: a rig with electric drive needs its fluid pressure limit: without it the pressure in the line is unknown. Found "electric". Write: maxFluidBar: 220 on a line of its own, with the figure from the plate of the pump',
    ],
  },
  {
    name: 'open PINs on a real site',
    changes: { 'demo-pins.yaml': 'ana: "1234"\n' },
    says: [
      'demo-pins.yaml:1:1 demo-pins: open PINs are only for the invented demo site, and site.demo is not true. Found nothing. Write: nothing, delete this file; for real PINs run "potbell pin" for each person and put its lines into pins.yaml',
    ],
  },
  {
    name: 'a PIN where its hash belongs',
    changes: { 'pins.yaml': 'ana: "1234"\n' },
    says: [
      'pins.yaml:1:6 ana: this is not a line made by "potbell pin". Found "(not shown)". Write: the whole line that "potbell pin" printed for this person, in quotes',
    ],
  },
  {
    name: 'a PIN line whose cost is no power of two',
    changes: changed('pins.yaml', '32768', '32767'),
    says: [
      'pins.yaml:1:6 ana: this is not a line made by "potbell pin". Found "(not shown)". Write: the whole line that "potbell pin" printed for this person, in quotes',
    ],
  },
  {
    name: 'a PIN line at a cost that gives the PIN away',
    changes: changed('pins.yaml', '32768', '2'),
    says: [
      'pins.yaml:1:6 ana: this is not a line made by "potbell pin". Found "(not shown)". Write: the whole line that "potbell pin" printed for this person, in quotes',
    ],
  },
  {
    name: 'a PIN line at a cost that would stop the computer',
    changes: changed('pins.yaml', ':8:1:', ':999:1:'),
    says: [
      'pins.yaml:1:6 ana: this is not a line made by "potbell pin". Found "(not shown)". Write: the whole line that "potbell pin" printed for this person, in quotes',
    ],
  },
  {
    name: 'lists in lists in lists',
    changes: { 'policy.yaml': '- '.repeat(500) },
    says: [
      'policy.yaml:1:61: this is nested too deeply to be read. Found nothing. Write: no more than a few levels of brackets or of indented lines',
    ],
  },
  {
    name: 'PINs as a list',
    changes: { 'pins.yaml': '- 1234\n' },
    says: [
      'pins.yaml:1:1: one line for each person is expected. Found "(not shown)". Write: a person id, a colon, a space and the PIN line',
    ],
  },
  {
    name: 'a PIN of nobody',
    changes: changed('pins.yaml', 'ana:', 'anna:'),
    says: [
      'pins.yaml:1:1 anna: there is no person with this id in people.yaml. Found "anna". Write: ana, if that was meant; one of ana, ben, cid, dora; or take the line out',
    ],
  },
  {
    name: 'a PIN file with a slip keeps its secret',
    changes: changed('pins.yaml', 'c2Fs', '"c2Fs'),
    says: [
      'pins.yaml:1:25: something stands here that does not belong. Found "(not shown)". Write: one field a line; a text with : # { } [ ] , in it goes in quotes',
    ],
  },
  {
    name: 'a demo PIN that lost its 0',
    changes: {
      ...changed('site.yaml', 'prestart:', 'demo: true\nprestart:'),
      'demo-pins.yaml': 'ana: 0123\n',
    },
    says: [
      'demo-pins.yaml:1:6 ana: a demo PIN is 4 to 8 digits in quotes. Found "(not shown)". Write: "4711" or other digits, in quotes so that a leading 0 stays',
    ],
  },
  // ---- days ----------------------------------------------------------------------------------------------------------
  {
    name: 'a coating the pack has not',
    changes: changed('days/monday.yaml', 'epoxy-mid', 'epoxy-top'),
    says: [
      'days/monday.yaml:8:14 day.jobs.#1.coating: there is no coating with this id. Found "epoxy-top". Write: epoxy-mid or pu-finish; or add it to the coating sheets',
    ],
  },
  {
    name: 'a rig the pack has not',
    changes: changed('days/monday.yaml', 'rig: rig-1', 'rig: crane'),
    says: [
      'days/monday.yaml:12:10 day.jobs.#1.rig: there is no rig with this id. Found "crane". Write: rig-1 or rig-2; or add it to rigs.yaml',
    ],
  },
  {
    name: 'somebody who may not spray',
    changes: changed('days/monday.yaml', '[cid]', '[cid, dora]'),
    says: [
      'days/monday.yaml:14:21 day.jobs.#1.sprayers.#2: dora does not have the role sprayer. Found "dora". Write: cid; or give dora the role in people.yaml if that is right',
    ],
  },
  {
    name: 'somebody who may not mix',
    changes: changed('days/monday.yaml', '[dora]', '[ana]'),
    says: [
      'days/monday.yaml:15:14 day.jobs.#1.mixers.#1: ana does not have the role mixer. Found "ana". Write: dora; or give ana the role in people.yaml if that is right',
    ],
  },
  {
    name: 'somebody nobody knows',
    changes: changed('days/monday.yaml', '[ana, ben]', '[ana, beni]'),
    says: [
      'days/monday.yaml:16:15 day.others.#2: there is no person with this id. Found "beni". Write: ben, if that was meant; one of ana, ben, cid, dora; or add it to people.yaml',
    ],
  },
  {
    name: 'a day not in the calendar',
    changes: changed('days/monday.yaml', '2026-06-08', '2026-06-31'),
    says: [
      'days/monday.yaml:1:7 day.date: this day is not in the calendar. Found "2026-06-31". Write: text, such as date: "2026-06-08" (date of the shift, year-month-day)',
    ],
  },
  {
    name: 'a date the other way round',
    changes: changed('days/monday.yaml', '2026-06-08', '08.06.2026'),
    says: [
      'days/monday.yaml:1:7 day.date: this is not written the way it must be. Found "08.06.2026". Write: the date in quotes as year-month-day, for example "2026-03-09"',
    ],
  },
];
