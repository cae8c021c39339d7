using Coldpeel.Files.Orders;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Shelf;

/// <summary>Reads the workshop file that holds where a job names none.</summary>
public static class ReadBook
{
    private static readonly Lazy<WorkshopBook> Example = new(WorkshopBookReader.Example);

    /// <summary>The workshop.</summary>
    public static WorkshopBook Run() => Example.Value;
}
