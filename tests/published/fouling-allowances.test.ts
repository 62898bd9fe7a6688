import { describe } from 'vitest';
import { testChecks } from '../support/table-test';
import { foulingAllowanceChecks } from './checks/fouling-allowances';

describe('published fouling allowances and overall coefficients: read in US units, and the demonstration fleet among them', () => {
  testChecks(foulingAllowanceChecks());
});
