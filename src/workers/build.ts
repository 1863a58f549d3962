/** Put in by the build. */
declare const __ECTYPE_BUILD__: string | undefined;

/** The source's commit, with "+changed" where it was built with changes; "unknown" where no commit was known. */
export const build: string = typeof __ECTYPE_BUILD__ === 'string' ? __ECTYPE_BUILD__ : 'unknown';
