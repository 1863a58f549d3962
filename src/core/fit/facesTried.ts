/**
 * Of an object with several engraved faces: a second one is tried when its score as a face reaches this share of the
 * best one's, unless the first pairing already agrees so far above chance, σ (unrelated faces stay below 10).
 */
export const facesTriedDefaults = { secondFaceShare: 0.35, beyondQuestion: 25 };
