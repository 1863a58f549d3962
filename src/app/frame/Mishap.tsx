import { Component, type ReactNode } from 'react';

interface MishapProps {
  readonly children: ReactNode;
}

/** A fault in drawing the page is said in a sentence, with a way out; what was done is kept in the browser. */
export class Mishap extends Component<MishapProps, { readonly words: string | null }> {
  override state = { words: null };

  static getDerivedStateFromError(error: unknown): { words: string } {
    return { words: error instanceof Error ? error.message : String(error) };
  }

  override render(): ReactNode {
    if (this.state.words === null) return this.props.children;
    return (
      <div className="mishap" role="alert">
        <p>The page could not be drawn ({this.state.words}). Your work is kept in this browser.</p>
        <button type="button" className="deed" onClick={() => location.reload()}>
          Open it again
        </button>
      </div>
    );
  }
}
