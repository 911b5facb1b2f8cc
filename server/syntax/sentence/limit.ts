/** What a limit says, however it was worded: shared by sentences, code spans and verdicts. */

/** The relations of the language. `within`: the fact stays inside both ends. `spans`: the fact contains them. */
export type Relation = '>=' | '>' | '<=' | '<' | '=' | '!=' | 'within' | 'spans';
