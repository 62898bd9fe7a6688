import { describe } from 'vitest';
import { testChecks } from '../support/table-test';
import { foulingResistanceChecks } from './checks/fouling-resistance';

describe('fouling resistance, cleanliness and their uncertainty (HEI, JCGM 100, Incropera problem 11.24)', () => {
  testChecks(foulingResistanceChecks());
});
