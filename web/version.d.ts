/** Version of the app, put in by the build from package.json. */
declare const APP_VERSION: string;
