/** What a reader of groups has to know first. */
export const groupCaution =
  'A shared matrix says nothing of who sealed. Groups are of one matrix or faithful copies of it, as verified pairs support them.';
