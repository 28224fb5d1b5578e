import { FILTER } from './filter.ts';
import { VALIDATION } from './validation.ts';

/** Version of what a server is set up with. */
export const SETUP_VERSION = 1;

export const DESIGN_ID = '_design/aftrun';

/** The filter's name, as a pull asks for it. */
export const HULL_FILTER = 'aftrun/hull';

export interface DesignDocument {
  readonly _id: string;
  readonly version: number;
  readonly language: 'javascript';
  readonly filters: Readonly<Record<string, string>>;
  readonly validate_doc_update: string;
}

/** The one document that makes a database of the CouchDB protocol fit to share entries. */
export function designDocument(): DesignDocument {
  return {
    _id: DESIGN_ID,
    version: SETUP_VERSION,
    language: 'javascript',
    filters: { hull: FILTER },
    validate_doc_update: VALIDATION,
  };
}
