import { Component, type ReactNode } from 'react';
import { saveSession, setAside } from '../state/persist.ts';
import { sessionHere, turnTo } from '../state/tab.ts';

interface MishapProps {
  readonly children: ReactNode;
}

/** A fault in drawing the page is said in a sentence, with three ways out; what was done is kept in the browser. */
export class Mishap extends Component<MishapProps, { readonly words: string | null; readonly trouble: string | null }> {
  override state = { words: null, trouble: null };

  static getDerivedStateFromError(error: unknown): { words: string } {
    return { words: error instanceof Error ? error.message : String(error) };
  }

  /** The old session stays in the browser, set aside; the page begins with a new one. */
  private async startEmpty(): Promise<void> {
    await setAside(sessionHere()).catch(() => undefined);
    turnTo(null);
    location.replace(`${location.pathname}${location.search}#empty`);
    location.reload();
  }

  override render(): ReactNode {
    if (this.state.words === null) return this.props.children;
    const say = (): void => this.setState({ trouble: 'The browser did not give the session out.' });
    return (
      <main className="mishap" role="alert">
        <h1>The page could not be drawn</h1>
        <p>
          Your work is kept in this browser. If the page fails again when it is opened again, start empty: the old
          session stays here for thirty days, and can be saved to a file first.
        </p>
        <p className="soft">What happened: {this.state.words}</p>
        <div className="mishap-ways">
          <button type="button" className="deed" onClick={() => location.reload()}>
            Open it again
          </button>
          <button type="button" className="word plain" onClick={() => void this.startEmpty()}>
            start empty
          </button>
          <button type="button" className="word plain" onClick={() => saveSession(sessionHere()).catch(say)}>
            save the old session to a file
          </button>
        </div>
        {this.state.trouble && <p>{this.state.trouble}</p>}
      </main>
    );
  }
}
