import { openPage } from '@/app/access/open-page';
import { SCOPE_WORDS } from '@/lib/auth/scope-words';
import { USUAL_TOKEN_DAYS } from '@/lib/contract/api/token-request';
import { tokensView } from '@/lib/report/tokens/tokens-view';
import { readTokens } from '@/lib/work/tokens';
import { TokensScreen } from './tokens-screen';

export const metadata = { title: 'Tokens' };

export default async function Page() {
  const context = await openPage('/tokens');
  const tokens = await readTokens(context);
  const facts = { tokens, scopeWords: SCOPE_WORDS, usualDays: USUAL_TOKEN_DAYS, now: context.now() };
  return <TokensScreen view={tokensView(facts)} />;
}
