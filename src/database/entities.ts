import { Firm } from '../access/firm.entity.js';
import { Person } from '../access/person.entity.js';
import { ReceivedRequest } from './received-request.entity.js';

/** Every entity of the schema. Listed, not found by pattern. */
export const entities = [Firm, Person, ReceivedRequest];
