import { trialNameOf } from '../causes/trialName.ts';
import { sentenceOf, type Wording } from './wording.ts';

const SAW = { steady: 'steady', begins: 'it begins here', porpoises: 'porpoises' } as const;

export const seaTrialWords: Wording<'sea trial'> = {
  group: 'work',
  words: (body) =>
    sentenceOf(
      `Sea trial, ${trialNameOf(body)}`,
      [
        body.speed.text,
        SAW[body.saw],
        body.revs !== undefined && `${body.revs} rpm`,
        body.driveTrim !== undefined && `drive trim ${body.driveTrim}`,
        body.tabs !== undefined && `tabs ${body.tabs}`,
        body.load !== undefined && `load ${body.load}`,
        body.sea !== undefined && `sea ${body.sea}`,
        body.date,
        body.time,
      ],
      body.notes,
    ),
};

export const trialPairWords: Wording<'trial pair'> = {
  group: 'work',
  words: ({ before, after, change, notes }) =>
    sentenceOf('Sea trials compared', [`“${before}” with “${after}”`, `changed: ${change}`], notes),
};
