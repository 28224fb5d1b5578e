import * as v from 'valibot';

import { isKey, newKey } from '../../src/book/id.ts';
import { CHECK_MONTHS_MOST } from '../../src/survey/kinds/hull.ts';

export type Unit = 'mm' | 'in';
export type Theme = 'system' | 'light' | 'dark' | 'sun';

/** What a person sets on this device. */
export interface DeviceSettings {
  /** What people call the device. */
  readonly name: string;
  /** Who uses it; empty where nobody said. */
  readonly person: string;
  readonly unit: Unit;
  readonly theme: Theme;
  /** The division of the gauge used last, as written, such as `1/32 in`. */
  readonly division: string;
  /** Months from a survey to the next check; null: the house default. */
  readonly checkEvery: number | null;
  /** Days without a backup before a reminder, 0: never; null: the house default. */
  readonly backupEvery: number | null;
  /** Last answers to questions that are asked again, by question. */
  readonly answers: Readonly<Record<string, string>>;
}

const STORED_AT = 'aftrun-device';
const short = v.pipe(v.string(), v.maxLength(150));
const schema = v.object({
  key: v.pipe(v.string(), v.check(isKey)),
  name: v.fallback(short, ''),
  person: v.fallback(short, ''),
  unit: v.fallback(v.picklist(['mm', 'in']), 'mm'),
  theme: v.fallback(v.picklist(['system', 'light', 'dark', 'sun']), 'system'),
  division: v.fallback(short, ''),
  checkEvery: v.fallback(
    v.nullable(v.pipe(v.number(), v.safeInteger(), v.minValue(1), v.maxValue(CHECK_MONTHS_MOST))),
    null,
  ),
  backupEvery: v.fallback(
    v.nullable(v.pipe(v.number(), v.safeInteger(), v.minValue(0), v.maxValue(365))),
    null,
  ),
  answers: v.fallback(v.record(v.string(), v.pipe(v.string(), v.maxLength(1_000))), {}),
});

type Stored = Readonly<v.InferOutput<typeof schema>>;

/** This device: a key that it gives itself once, and what its person prefers. Kept in a storage such as localStorage;
 *  where that is missing or blocked, or holds something else, it lasts as long as the page. */
export class Device {
  #settings = $state.raw<Stored>({
    key: '',
    name: '',
    person: '',
    unit: 'mm',
    theme: 'system',
    division: '',
    checkEvery: null,
    backupEvery: null,
    answers: {},
  });
  /** Whether the browser keeps these settings. */
  kept = $state(false);

  readonly #storage: Pick<Storage, 'getItem' | 'setItem'> | undefined;

  constructor(
    storage: Pick<Storage, 'getItem' | 'setItem'> | undefined,
    random: (count: number) => Uint8Array,
    first: Partial<Pick<DeviceSettings, 'unit'>> = {},
  ) {
    this.#storage = storage;
    const stored = this.#read();
    if (stored !== undefined) {
      this.#settings = stored;
      this.kept = true;
      return;
    }
    const key = newKey(random(8));
    this.#settings = { ...this.#settings, ...first, key, name: `Device ${key.slice(0, 4)}` };
    this.#write();
  }

  get key(): string {
    return this.#settings.key;
  }
  get name(): string {
    return this.#settings.name;
  }
  get person(): string {
    return this.#settings.person;
  }
  get unit(): Unit {
    return this.#settings.unit;
  }
  get theme(): Theme {
    return this.#settings.theme;
  }
  get division(): string {
    return this.#settings.division;
  }
  get checkEvery(): number | null {
    return this.#settings.checkEvery;
  }
  get backupEvery(): number | null {
    return this.#settings.backupEvery;
  }
  get answers(): Readonly<Record<string, string>> {
    return this.#settings.answers;
  }

  /** Changes settings, and keeps them beside what another tab has set meanwhile. Answers are added to those known.
   *  Texts are cut to what is kept: 150 characters, 1,000 for an answer. */
  set(changes: Partial<DeviceSettings>): void {
    const base = this.#read() ?? this.#settings;
    const answers = { ...base.answers, ...changes.answers };
    this.#settings = {
      ...base,
      ...changes,
      key: this.#settings.key,
      name: (changes.name ?? base.name).slice(0, 150),
      person: (changes.person ?? base.person).slice(0, 150),
      division: (changes.division ?? base.division).slice(0, 150),
      answers: Object.fromEntries(
        Object.entries(answers).map(([question, text]) => [question, text.slice(0, 1_000)]),
      ),
    };
    this.#write();
  }

  /** Takes what another tab has set. */
  readAgain(): void {
    const stored = this.#read();
    if (stored !== undefined && stored.key === this.#settings.key) this.#settings = stored;
  }

  /** What entries made here say of who and where. The key stands at the end, so that a device that was given another
   *  name still knows its own. */
  get label(): { readonly by: string; readonly device: string } {
    const { person, name, key } = this.#settings;
    return { by: person.trim() || 'not stated', device: `${name} ${key}`.trim() };
  }

  /** Whether an entry's device is this one. */
  owns(device: string): boolean {
    return device === this.key || device.endsWith(` ${this.key}`);
  }

  #read(): Stored | undefined {
    try {
      const text = this.#storage?.getItem(STORED_AT);
      if (text === null || text === undefined) return undefined;
      const read = v.safeParse(schema, JSON.parse(text));
      return read.success ? read.output : undefined;
    } catch {
      return undefined;
    }
  }

  #write(): void {
    try {
      this.#storage?.setItem(STORED_AT, JSON.stringify(this.#settings));
      this.kept = this.#storage !== undefined;
    } catch {
      this.kept = false;
    }
  }
}
