using Coldpeel.Craft.Sheets;

namespace Coldpeel.Workshop.Sheets;

/// <summary>What is left of a sheet on the shelf, used before new ones where that saves one.</summary>
/// <param name="Sheet">Its size and border; it costs nothing, and there are <see cref="SheetStock.Count"/> of it.</param>
/// <param name="Process">The process whose film it is; null where one film serves all.</param>
public sealed record StartedSheet(SheetStock Sheet, string? Process);
