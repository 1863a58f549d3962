import { setPriority } from 'node:os';

// Tests of the core only compute: they give way to browsers and servers, whose tests wait for something to happen in time.
setPriority(10);
