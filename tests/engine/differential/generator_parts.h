// What random expressions are made of: nodes, and the names that they may use. Part of
// expression_generator.cpp.

#pragma once

#include "engine/differential/expression_generator.h"

namespace testing::parts {

using engine::Node;
using engine::Operation;
using engine::Tree;
using NK = Node::Kind;

inline Tree node(NK kind) {
  return std::make_unique<Node>(kind);
}
inline Tree node(NK kind, std::string text) {
  Tree made = node(kind);
  made->text = std::move(text);
  return made;
}
template <class... Children>
Tree node_of(NK kind, Operation operation, Children... children) {
  Tree made = node(kind);
  made->operation = operation;
  (made->children.push_back(std::move(children)), ...);
  return made;
}
template <class... Trees>
std::vector<Tree> list_of(Trees... trees) {
  std::vector<Tree> all;
  (all.push_back(std::move(trees)), ...);
  return all;
}

struct Word {
  Sort sort;
  const char* name;
};
inline constexpr Word words[] = {
    {Sort::number, "n"},      {Sort::number, "m"},      {Sort::number, "days in weekend"},
    {Sort::number, "ratio"},  {Sort::text, "s"},        {Sort::text, "site name"},
    {Sort::truth, "yes"},     {Sort::truth, "is flat"}, {Sort::truth, "nothing"},
    {Sort::date, "today"},    {Sort::date, "seen on"},  {Sort::period, "interval"},
    {Sort::period, "wait"},   {Sort::numbers, "ns"},    {Sort::numbers, "none"},
    {Sort::texts, "words"},   {Sort::record, "person"}, {Sort::records, "lesions"},
    {Sort::records, "mixed"},
};

// The keys of records, by what they hold. Not every record has them.
inline constexpr Word keys[] = {{Sort::number, "size mm"}, {Sort::number, "n"},   {Sort::text, "s"},
                                {Sort::truth, "flat"},     {Sort::number, "age"}, {Sort::text, "name"}};

// Names that loops and functions give. `n` and `s` hide what has that name outside.
inline constexpr const char* variables[] = {"x", "y", "n", "s", "total size", "a-b"};

}  // namespace testing::parts
