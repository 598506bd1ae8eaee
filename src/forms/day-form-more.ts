import type { Field } from '../message/form.ts';
import type { DayEntry, Job } from '../model/day-entry.ts';
import { numberField, type OpenForm, textField } from './form-def.ts';

/** What a job seldom needs, folded away at its end. Left empty, the site's or the sheet's figure holds. */
export function moreOfJob({ texts, pack }: OpenForm, at: string, job: Job | undefined): readonly Field[] {
  return [
    { kind: 'group', name: `${at}.more`, label: texts.say('form.post-day.more'), folded: true },
    numberField(`${at}.lossPct`, texts.say('form.post-day.loss'), '%', {
      required: false,
      value: job?.lossPct,
      step: 1,
      hint: texts.say('form.post-day.loss-hint', { loss: pack.policy.lossPct }),
    }),
    numberField(`${at}.profileUm`, texts.say('form.post-day.profile'), 'µm', {
      required: false,
      value: job?.profileUm,
      step: 1,
      hint: texts.say('form.post-day.profile-hint'),
    }),
    numberField(`${at}.liftM`, texts.say('form.post-day.lift'), 'm', {
      required: false,
      value: job?.liftM,
      step: 1,
      hint: texts.say('form.post-day.lift-hint'),
    }),
    {
      ...textField(`${at}.tip`, texts.say('form.post-day.tip'), false, false, job?.tip ?? ''),
      hint: texts.say('form.post-day.tip-hint'),
    } as Field,
    {
      ...textField(
        `${at}.preparedAt`,
        texts.say('form.post-day.prepared'),
        false,
        false,
        job?.preparedAt ?? '',
      ),
      hint: texts.say('form.post-day.prepared-hint'),
    } as Field,
  ];
}

/** The space of an enclosed or confined day and the air blown through it. */
export function spaceFields({ texts }: OpenForm, entry: DayEntry | null): readonly Field[] {
  return [
    { kind: 'group', name: 'space', label: texts.say('form.post-day.space'), folded: true },
    numberField('space.volumeM3', texts.say('form.post-day.space-volume'), 'm³', {
      required: false,
      value: entry?.space?.volumeM3,
      step: 1,
    }),
    numberField('space.airM3PerMin', texts.say('form.post-day.space-air'), 'm³/min', {
      required: false,
      value: entry?.space?.airM3PerMin,
      step: 1,
      hint: texts.say('form.post-day.space-air-hint'),
    }),
  ];
}
