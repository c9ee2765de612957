// The advices of one record under every histology that it leaves open, as one.

#pragma once

#include <string>
#include <vector>

#include "engine/advice.h"
#include "engine/differential/hand_written_uk_2020/advice_writer.h"

namespace testing::by_hand {

class CommonAdvice {
 public:
  /// False when the patient would get something else than by the first.
  bool add(Advice advice);
  /// After at least one: what it says in every case, and what it may say.
  Advice take(const Texts& texts);

 private:
  struct SeenReason {
    Reason reason;
    int times = 0;
    bool reworded = false;
  };
  /// Those of the advices that one row decides.
  struct Decided {
    std::vector<SeenReason> reasons;
  };
  struct SeenFlag {
    Flag flag;
    int times = 0;
  };

  void add_reasons(const std::vector<Reason>& reasons);
  void add_flags(const std::vector<Flag>& flags);
  void add_facts(const Advice& advice);
  std::vector<Reason> reasons() const;
  std::vector<Flag> flags() const;

  Advice first_;
  int times_ = 0;
  std::vector<Decided> decided_;
  std::vector<SeenFlag> flags_;
  std::vector<std::vector<std::string>> facts_;  ///< What each was, by its place.
  std::vector<std::string> assumed_;
};

}  // namespace testing::by_hand
