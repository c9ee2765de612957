#!/bin/sh
# Follows the chain of a ledger with nothing of ours: sqlite3 reads the entries, sha256sum hashes them.
# Prints the number and hash of the last entry, as a checkpoint has them.
# usage: follow_chain.sh LEDGER
set -eu
previous=$(printf '%064d' 0)
for number in $(sqlite3 "$1" 'SELECT sequence FROM entries ORDER BY sequence'); do
  payload=$(sqlite3 "$1" "
    SELECT lower(hex(CAST('{\"actor\":' || json_quote(actor) || ',\"at\":' || json_quote(at) || ',\"body\":' || body
      || ',\"kind\":' || json_quote(kind) || ',\"subject\":' || json_quote(subject) || '}' AS BLOB)))
    FROM entries WHERE sequence = $number")
  computed=$(printf '00%s%016x%s' "$previous" "$number" "$payload" | tr a-f A-F | basenc --base16 -d | sha256sum | cut -c1-64)
  stored=$(sqlite3 "$1" "SELECT lower(hex(hash)) FROM entries WHERE sequence = $number")
  if [ "$computed" != "$stored" ]; then
    echo "entry $number: computed $computed, stored $stored"
    exit 1
  fi
  previous=$stored
done
echo "$number sha256:$previous"
