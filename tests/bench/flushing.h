// While one of these lives, nothing that this program writes is flushed to the disk: a ledger that is only
// there to be measured is made as fast as it can be computed.

#pragma once

namespace bench {

class NothingIsFlushed {
 public:
  NothingIsFlushed();
  ~NothingIsFlushed();
  NothingIsFlushed(const NothingIsFlushed&) = delete;
  NothingIsFlushed& operator=(const NothingIsFlushed&) = delete;
};

}  // namespace bench
