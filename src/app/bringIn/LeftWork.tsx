import { useStore } from '../state/store.ts';
import { turnTo } from '../state/tab.ts';

/** Work that another tab left in this browser: one word takes it up. */
export function LeftWork() {
  const left = useStore((state) => state.left);
  if (!left) return null;
  const when = new Date(left.at).toLocaleString('en-GB', {
    day: 'numeric',
    month: 'long',
    hour: '2-digit',
    minute: '2-digit',
  });
  return (
    <p className="soft">
      Work of {when} was left in this browser.{' '}
      <button
        type="button"
        className="word plain"
        onClick={() => {
          turnTo(left.session);
          location.reload();
        }}
      >
        go on with it
      </button>
    </p>
  );
}
