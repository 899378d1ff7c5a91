#include "scheduling/variable_order.h"

#include <random>
#include <utility>

namespace coatwright {
namespace {

constexpr double kDecay = 0.95;
constexpr double kLargest = 1e100;
constexpr double kFirstStep = 1e-6;

}  // namespace

VariableOrder::VariableOrder(int variables, unsigned seed)
    : place_(static_cast<std::size_t>(variables), -1) {
  std::minstd_rand random(seed);
  for (int i = 0; i < variables; ++i) {
    activity_.push_back(kFirstStep * static_cast<double>(random() % 1024));
  }
  for (int i = 0; i < variables; ++i) {
    insert(i);
  }
}

bool VariableOrder::before(int a, int b) const {
  const double one = activity_[static_cast<std::size_t>(a)];
  const double other = activity_[static_cast<std::size_t>(b)];
  return one > other || (one == other && a < b);
}

void VariableOrder::swap_places(std::size_t a, std::size_t b) {
  std::swap(heap_[a], heap_[b]);
  place_[static_cast<std::size_t>(heap_[a])] = static_cast<int>(a);
  place_[static_cast<std::size_t>(heap_[b])] = static_cast<int>(b);
}

void VariableOrder::sift_up(std::size_t place) {
  while (place > 0 && before(heap_[place], heap_[(place - 1) / 2])) {
    swap_places(place, (place - 1) / 2);
    place = (place - 1) / 2;
  }
}

void VariableOrder::sift_down(std::size_t place) {
  while (true) {
    std::size_t first = place;
    for (const std::size_t child : {2 * place + 1, 2 * place + 2}) {
      if (child < heap_.size() && before(heap_[child], heap_[first])) {
        first = child;
      }
    }
    if (first == place) {
      return;
    }
    swap_places(place, first);
    place = first;
  }
}

void VariableOrder::bump(int variable) {
  double& activity = activity_[static_cast<std::size_t>(variable)];
  activity += step_;
  if (activity > kLargest) {
    for (double& one : activity_) {
      one /= kLargest;
    }
    step_ /= kLargest;
  }
  if (const int place = place_[static_cast<std::size_t>(variable)]; place >= 0) {
    sift_up(static_cast<std::size_t>(place));
  }
}

void VariableOrder::decay() {
  step_ /= kDecay;
}

int VariableOrder::pop() {
  if (heap_.empty()) {
    return -1;
  }
  const int top = heap_.front();
  swap_places(0, heap_.size() - 1);
  heap_.pop_back();
  place_[static_cast<std::size_t>(top)] = -1;
  if (!heap_.empty()) {
    sift_down(0);
  }
  return top;
}

void VariableOrder::insert(int variable) {
  if (place_[static_cast<std::size_t>(variable)] == -1) {
    place_[static_cast<std::size_t>(variable)] = static_cast<int>(heap_.size());
    heap_.push_back(variable);
    sift_up(heap_.size() - 1);
  }
}

}  // namespace coatwright
