using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Shelf;

/// <summary>Reads the workshop that holds where a job names none.</summary>
public sealed class ReadBook(OpenedWorkshop workshop)
{
    /// <summary>The workshop: the owner's own, or until there is one the built-in example with the owner's answers over it.</summary>
    public WorkshopBook Run() => new OwnBook(workshop).Read();

    /// <summary>Whether the owner has changed it, so that it no longer is the built-in example with the answers.</summary>
    public bool IsOwn => new OwnBook(workshop).Kept is not null;
}
