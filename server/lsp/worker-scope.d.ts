/** What a worker calls itself: a name that the types of the protocol's library use and those of the DOM lack. */
type DedicatedWorkerGlobalScope = typeof globalThis.self;
