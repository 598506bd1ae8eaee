import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { folder } from './caution-md.ts';

/** What has to be read before "More" and "Ask", as it is written. */
function shown(language: string, id: string): string {
  const [before = ''] = readFileSync(`${folder(`templates/${language}/cautions`)}${id}.md`, 'utf8').split(
    '## More',
  );
  return before;
}

/** Words that say what is dangerous or what to hold on to; shortening a caution must not cost them. */
const kept: readonly (readonly [string, Readonly<Record<string, RegExp>>])[] = [
  [
    'breathing',
    {
      en: /doubt \{[^}]*\}[^}]*(polyurethane)[^}]*H334/,
      es: /doubt \{[^}]*\}[^}]*(poliuretano)[^}]*H334/,
      pt: /doubt \{[^}]*\}[^}]*(poliuretano)[^}]*H334/,
      pl: /doubt \{[^}]*\}[^}]*(poliuretan)[^}]*H334/,
    },
  ],
  [
    'breathing',
    { en: /gear on, never lifted/, es: /equipo puesto/, pt: /proteção posta/, pl: /nie zdejmuj ochrony/ },
  ],
  [
    'injection',
    { en: /before the tip/, es: /delante de la boquilla/, pt: /à frente do bico/, pl: /przed dyszą/ },
  ],
  ['gun-inspection', { en: /your hand/i, es: /en su mano/, pt: /na sua mão/, pl: /w twojej ręce/ }],
  [
    'ignition',
    {
      en: /never while paint is wet/,
      es: /nunca mientras la pintura esté húmeda/,
      pt: /nunca enquanto a tinta estiver húmida/,
      pl: /nigdy, dopóki farba jest mokra/,
    },
  ],
];

describe.each(kept)('%s keeps', (id, words) => {
  test.each(Object.entries(words))('%s', (language, word) => {
    expect(shown(language, id)).toMatch(word);
  });
});
