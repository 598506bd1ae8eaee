import { z } from 'zod';
import { coatingSheetSchema } from './coating-sheet.ts';
import { idSchema } from './id.ts';
import { rigSchema } from './rig.ts';
import { siteCautionsSchema } from './site-cautions.ts';
import { timeZoneSchema, wallTimeSchema } from './time.ts';

export const roleSchema = z.enum(['foreman', 'safety', 'sprayer', 'mixer', 'standby', 'helper']);
export type Role = z.infer<typeof roleSchema>;

/** As Slack shows them: a letter for the kind, then capitals and digits, 9 to 15 characters in all. */
export const slackMemberSchema = z
  .string()
  .regex(
    /^[UW][A-Z0-9]{8,14}$/,
    'this is no Slack member id; write the one from the profile in Slack ("Copy member ID"), such as U0MARTA123',
  );
export const slackChannelSchema = z
  .string()
  .regex(
    /^[CG][A-Z0-9]{8,14}$/,
    'this is no Slack channel id; write the one at the foot of the channel details in Slack, such as C0CREW1234',
  );

/** As Microsoft Entra shows it: an object id is the same for every app. Written in small letters. RFC 9562 section 4. */
export const teamsMemberSchema = z
  .string()
  .regex(
    /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/,
    "this is no Teams member id; write the person's Object ID from Microsoft Entra, such as 00000000-0000-4000-8000-0000000000a1",
  );
export const teamsChannelSchema = z
  .string()
  .regex(
    /^19:[\w-]+@thread\.(tacv2|skype)$/,
    'this is no Teams channel id; write the part of "Get link to channel" from 19 on, with : for %3A and @ for %40, such as 19:crew@thread.tacv2',
  );

export const personSchema = z.strictObject({
  id: idSchema,
  name: z.string().min(1).max(60),
  roles: z.array(roleSchema).min(1),
  language: z
    .string()
    .regex(/^[a-z]{2}$/, 'two letters, for example "en"')
    .default('en'),
  hasPhone: z.boolean().default(true).describe('false: the foreman witnesses the sign-off'),
  slack: slackMemberSchema
    .optional()
    .describe('member id in Slack; without it Slack does not know the person'),
  teams: teamsMemberSchema
    .optional()
    .describe('object id in Microsoft Entra; without it Teams does not know the person'),
});
export type Person = z.infer<typeof personSchema>;

export const emergencySchema = z.strictObject({
  call: z.string().min(1).max(40).describe('emergency number on this site'),
  address: z.string().min(1).max(200).describe('where to send the ambulance, gate included'),
  hospital: z.string().min(1).max(120).describe('nearest emergency department with hand surgery'),
  firstAider: idSchema,
  assembly: z.string().min(1).max(120),
  eyewash: z.string().min(1).max(120),
});
export type Emergency = z.infer<typeof emergencySchema>;

export const siteSchema = z.strictObject({
  id: idSchema,
  name: z.string().min(1).max(80),
  timeZone: timeZoneSchema,
  language: z
    .string()
    .regex(/^[a-z]{2}$/)
    .default('en'),
  units: z.enum(['metric', 'us']).default('metric'),
  altitudeM: z.number().min(-450).max(5000).default(0).describe('height above sea level, m'),
  prestart: wallTimeSchema.describe('when the briefing is due'),
  emergency: emergencySchema,
  slack: z
    .strictObject({ channel: slackChannelSchema.describe("the crew's channel") })
    .optional()
    .describe('where in Slack the crew is'),
  teams: z
    .strictObject({ channel: teamsChannelSchema.describe("the crew's channel") })
    .optional()
    .describe('where in Teams the crew is'),
  demo: z.boolean().default(false).describe('true only for the invented demo site: its PINs are public'),
});
export type Site = z.infer<typeof siteSchema>;

const minutes = (most: number) => z.number().min(0).max(most);

/** What the site has decided. The data sheet is never loosened by it. */
export const policySchema = z.strictObject({
  lossPct: z.number().min(0).max(80).default(30).describe('paint lost, per cent of paint used'),
  reservePct: z.number().min(25).max(90).default(25).describe('pot life kept back for purging and cleaning'),
  marginMinC: z.number().min(3).max(20).default(3).describe('steel over dew point'),
  rhMaxPct: z.number().min(10).max(85).default(85),
  readingEveryMinutes: z.number().min(15).max(240).default(240),
  warnBeforeMinutes: minutes(60).default(15).describe('first bell before use by'),
  chaseSignOffMinutes: z.number().min(1).max(60).default(10),
  foremanAfterMinutes: z.number().min(1).max(30).default(4).describe('unanswered bell goes to the foreman'),
  safetyAfterMinutes: z
    .number()
    .min(1)
    .max(60)
    .default(8)
    .describe('unanswered bell goes to the safety contact'),
  repeatEveryMinutes: z.number().min(1).max(30).default(5),
  lineVolumesPrimary: z.number().min(1).max(10).default(3),
  lineVolumesSecondary: z.number().min(1).max(10).default(2),
  lineVolumesToRenew: z
    .number()
    .min(2)
    .max(10)
    .default(3)
    .describe('line volumes of a fresh batch before the line counts as fresh'),
  flushFixedMinutes: z
    .number()
    .min(3)
    .max(60)
    .default(8)
    .describe('pressure relief, tip off, suction out and back'),
  flushStepMinutes: z
    .number()
    .min(2)
    .max(60)
    .default(10)
    .describe('a flush with no step confirmed this long is chased'),
  warmHoseAddsC: z
    .number()
    .min(10)
    .max(40)
    .default(15)
    .describe('what "hose is warm" adds to the line temperature'),
  lelFractionPct: z.number().min(1).max(25).default(10).describe('vapour kept under this much of its LEL'),
  windMaxMps: z
    .number()
    .min(1)
    .max(20)
    .default(6.7)
    .describe('no spraying in the open from this wind on, m/s'),
  surfaceHours: z
    .number()
    .min(0.5)
    .max(24)
    .default(4)
    .describe('bare steel gets its first coat within this, hours; half of it in damp air'),
  testFanMinutes: z.number().min(15).max(480).default(120).describe('a test fan is asked for this often'),
  fanWornPct: z.number().min(5).max(50).default(25).describe('a fan this much narrower than new is worn out'),
  coveralls: z
    .enum(['woven', 'polyolefin', 'vapour-barrier'])
    .default('vapour-barrier')
    .describe('what the sprayers wear, for heat'),
  workW: z.number().min(117).max(520).default(300).describe('how hard the work is, metabolic rate in W'),
  gunOnPct: z.number().min(5).max(100).default(50).describe('trigger time, per cent of spraying time'),
});
export type Policy = z.infer<typeof policySchema>;

export const sitePackSchema = z.strictObject({
  site: siteSchema,
  people: z.array(personSchema).min(1),
  coatings: z.array(coatingSheetSchema).min(1),
  rigs: z.array(rigSchema).min(1),
  policy: policySchema,
  cautions: siteCautionsSchema.optional().describe('what the site adds to the catalogue of cautions'),
});
export type SitePack = z.infer<typeof sitePackSchema>;
