#include "scheduling/bound_trail.h"

namespace coatwright {

int BoundTrail::add_variable(int last) {
  const int variable = variables();
  for (const int bound : {0, -last}) {
    bounds_.push_back(bound);
    root_.push_back(bound);
    latest_.push_back(-1);
  }
  return variable;
}

void BoundTrail::push(BoundLiteral literal, BoundReason reason, std::size_t stored_before) {
  const std::size_t side = side_index(literal.side);
  entries_.push_back({literal, latest_[side], level(), reason, stored_before});
  latest_[side] = size() - 1;
  bounds_[side] = literal.value;
}

int BoundTrail::entry_of(BoundLiteral literal) const {
  if (is_true_at_root(literal)) {
    return -1;
  }
  int place = latest_[side_index(literal.side)];
  for (int before = entry(place).previous;
       before != -1 && entry(before).literal.value >= literal.value;
       before = entry(place).previous) {
    place = before;
  }
  return place;
}

void BoundTrail::back_to(int level, std::vector<int>& undone) {
  if (level >= this->level()) {
    return;  // nothing was written after it
  }
  const int keep = level_starts_[static_cast<std::size_t>(level)];
  while (size() > keep) {
    const Entry& last = entries_.back();
    const std::size_t side = side_index(last.literal.side);
    latest_[side] = last.previous;
    bounds_[side] = last.previous == -1 ? root_[side] : entry(last.previous).literal.value;
    undone.push_back(last.literal.side);
    store_.resize(last.stored_before);
    entries_.pop_back();
  }
  level_starts_.resize(static_cast<std::size_t>(level));
}

void BoundTrail::settle_root() {
  for (const Entry& entry : entries_) {
    root_[side_index(entry.literal.side)] = bounds_[side_index(entry.literal.side)];
    latest_[side_index(entry.literal.side)] = -1;
  }
  entries_.clear();
  store_.clear();
}

}  // namespace coatwright
