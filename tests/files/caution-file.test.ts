import { describe, expect, test } from 'vitest';
import { parseCaution } from '../../adapters/files/caution-file.ts';
import { formatProblem } from '../../adapters/files/problem.ts';

const good = `# Paint under the skin

<!-- a note to translators,
     over two lines -->
## Why today
{rig} reaches {bar, number} bar today.
That goes through {gloves, plural, one {a glove} other {# gloves}}.

## Each
{rig}: up to {bar} bar

## Do
- Lock the trigger
  before you touch the tip.
- Call {call}.
## More
- It looks like a pinprick.
## Ask
### pinprick
A tiny hole,
no pain. What now?
- [ ] Wait.
- [x] Hospital, at once.
- [ ] Wash it.
> It is a surgical emergency.
### tip
The tip is blocked.
- [X] Relieve the pressure.
- [ ] Look into it.
> The line is still
  under pressure.
`;

function parsed(text: string) {
  const { caution, problems } = parseCaution('injection.md', text, 'en');
  if (!caution) throw new Error(problems.map(formatProblem).join('\n'));
  return caution;
}

function words(text: string): readonly string[] {
  const { caution, problems } = parseCaution('x.md', text, 'en');
  expect(caution === null).toBe(problems.length > 0);
  return problems.map(formatProblem);
}

describe('a caution file', () => {
  test('gives its words with the numbers filled in', () => {
    const { words } = parsed(good);
    expect(words.title).toBe('Paint under the skin');
    expect(words.reason({ rig: 'Rig 1', bar: 1225, gloves: 2 })).toBe(
      'Rig 1 reaches 1,225 bar today. That goes through 2 gloves.',
    );
    expect(words.each({ rig: 'Rig 1', bar: 225 })).toBe('Rig 1: up to 225 bar');
    expect(words.steps({ call: '112' })).toEqual(['Lock the trigger before you touch the tip.', 'Call 112.']);
    expect(words.more).toEqual(['It looks like a pinprick.']);
  });

  test('puts the right choice first and the wrong ones after it as in the file', () => {
    expect(parsed(good).words.question('pinprick')).toEqual({
      ask: 'A tiny hole, no pain. What now?',
      choices: ['Hospital, at once.', 'Wait.', 'Wash it.'],
      because: 'It is a surgical emergency.',
    });
    expect(parsed(good).words.question('tip').because).toBe('The line is still under pressure.');
    expect(() => parsed(good).words.question('none')).toThrow('There is no question "none" in injection.md');
  });

  test('says which placeholders and questions it has, for checks', () => {
    const { placeholders, steps, questions } = parsed(good);
    expect(placeholders).toEqual({ reason: ['bar', 'gloves', 'rig'], each: ['bar', 'rig'], steps: ['call'] });
    expect(steps).toBe(2);
    expect(questions).toEqual([
      { id: 'pinprick', choices: 3 },
      { id: 'tip', choices: 2 },
    ]);
  });

  test('Each, More and Ask may be left out', () => {
    const { words } = parsed('# Title\n## Why today\nBecause.\n## Do\n- This.\n');
    expect(words.each({})).toBeNull();
    expect(words.more).toEqual([]);
  });

  test('line ends of another system do no harm', () => {
    expect(parsed(good.replaceAll('\n', '\r\n')).words.title).toBe('Paint under the skin');
  });

  test('a value that is not given throws', () => {
    expect(() => parsed(good).words.steps({})).toThrow('call');
  });
});

const frame = (part: string) => `# T\n## Why today\nW\n## Do\n- D\n${part}`;
const question = (body: string) => frame(`## Ask\n### q1\n${body}`);

describe('a broken caution file says where and how to mend it', () => {
  test.each<[string, string, readonly string[]]>([
    [
      'nothing in it',
      '',
      [
        'x.md:1:1 title: the title is missing. Found nothing. Write: # and a space and a few words, as the first line',
        'x.md:1:1 Why today: this part is missing. Found nothing. Write: ## Why today, then why it applies today',
        'x.md:1:1 Do: there is nothing to do. Found nothing. Write: ## Do, then one line for each step, beginning with "- "',
      ],
    ],
    [
      'a part misspelt',
      frame('## Mor\n- x\n'),
      [
        'x.md:6:4 Do: there is no part with this name. Found "Mor". Write: More, if that was meant; one of Why today, Each, Do, More, Ask',
        'x.md:7:3: a line with "- " does not belong here. Found "x". Write: "- " under ## Do and ## More; choices begin with "- [x] " or "- [ ] "',
      ],
    ],
    [
      'a part twice',
      frame('## Do\n- E\n'),
      ['x.md:6:4 Do: this part is there twice. Found "Do". Write: it once, with all its lines'],
    ],
    [
      'a second title',
      frame('# U\n'),
      ['x.md:6:3 Do: there is a second title. Found "U". Write: ## for the parts below the title'],
    ],
    [
      'a heading without its space',
      frame('##More\n'),
      [
        'x.md:6:1 Do: the mark at the beginning of this line is not complete. Found "##More". Write: "# ", "- ", "- [x] ", "- [ ] " or "> " with its space',
      ],
    ],
    [
      'a step without its dash',
      frame('\nand this\n'),
      [
        'x.md:7:1 Do: this line belongs to no part. Found "and this". Write: it under a heading, or with "- " before it',
      ],
    ],
    [
      'text before everything',
      'Careful!\n# T\n## Why today\nW\n## Do\n- D\n',
      [
        'x.md:1:1: this line belongs to no part. Found "Careful!". Write: it under a heading, or with "- " before it',
      ],
    ],
    [
      'a brace not closed, in the second line of a part',
      '# T\n## Why today\nIt is\nhot: {airC °C\n## Do\n- D\n',
      [
        'x.md:4:6 Why today: a brace is not closed, or the name in it has a space or a sign. Found "It is hot: {airC °C". Write: one word, such as {rig}',
      ],
    ],
    [
      'a placeholder switched off by an apostrophe',
      "# T\n## Why today\nW\n## Do\n- Use '{rig}'.\n",
      [
        "x.md:5:7 Do: a brace without its partner, or one switched off by an apostrophe before it. Found \"Use '{rig}'.\". Write: {name} with both braces; an apostrophe before a brace is written twice, ''",
      ],
    ],
    [
      'a time that would be on the clock of the computer',
      '# T\n## Why today\nAt {at, time, short}.\n## Do\n- D\n',
      [
        'x.md:3:4 Why today: a date or time may not be formatted here: times come as text on the site clock. Found "At {at, time, short}.". Write: {at} alone',
      ],
    ],
    [
      'a placeholder where none is given',
      question('How hot is {rig}?\n- [x] A\n- [ ] B\n> C\n'),
      [
        'x.md:8:12 Ask.q1: nothing is given for the placeholder {rig} here. Found "How hot is {rig}?". Write: the words alone; placeholders belong into Why today, Each and Do',
      ],
    ],
    [
      'two right choices',
      question('Q?\n- [x] A\n- [x] B\n> C\n'),
      [
        'x.md:7:5 Ask.q1: 2 choices are marked as right. Found "q1". Write: - [x] before the one right choice',
        'x.md:7:5 Ask.q1: there is no wrong choice. Found "q1". Write: - [ ] and a wrong choice, once or more often',
      ],
    ],
    [
      'a question without anything',
      question(''),
      [
        'x.md:7:5 Ask.q1: the question itself is missing. Found "q1". Write: the question, on the line below',
        'x.md:7:5 Ask.q1: 0 choices are marked as right. Found "q1". Write: - [x] before the one right choice',
        'x.md:7:5 Ask.q1: there is no wrong choice. Found "q1". Write: - [ ] and a wrong choice, once or more often',
        'x.md:7:5 Ask.q1: the reason is missing. Found "q1". Write: > because, and why the right choice is right',
      ],
    ],
    [
      'a choice that says neither right nor wrong',
      question('Q?\n- [x] A\n- [?] B\n- [ ] C\n> D\n'),
      [
        'x.md:10:1 Ask: the mark at the beginning of this line is not complete. Found "- [?] B". Write: "# ", "- ", "- [x] ", "- [ ] " or "> " with its space',
      ],
    ],
    [
      'two questions with one id',
      `${question('Q?\n- [x] A\n- [ ] B\n> C\n')}### q1\nR?\n- [x] A\n- [ ] B\n> C\n`,
      ['x.md:12:5 Ask.q1: this question id is used twice. Found "q1". Write: another id'],
    ],
    [
      'a question outside of Ask',
      frame('### q1\n'),
      ['x.md:6:5 Do: a question belongs under ## Ask. Found "q1". Write: ## Ask on a line above it'],
    ],
    [
      'a comment that never ends',
      `${frame('')}<!-- note\n`,
      ['x.md:6:1: a comment is not closed. Found "<!--". Write: -->'],
    ],
  ])('%s', (_name, text, says) => {
    expect(words(text)).toEqual(says);
  });
});
