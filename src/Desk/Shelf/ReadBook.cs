using Coldpeel.Desk.Rooms;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Shelf;

/// <summary>Reads the workshop that holds where a job names none.</summary>
public sealed class ReadBook(OpenedWorkshop workshop)
{
    /// <summary>The workshop: the built-in example with the owner's answers over it.</summary>
    public WorkshopBook Run() => new KeepAnswers(workshop).Book();
}
