using System.Globalization;
using Coldpeel.Desk.Orders;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Rooms;

/// <summary>Puts a backup in the place of all that is here; what was here is kept in the folder "backups" first.</summary>
public sealed class RestoreWorkshop(OpenedWorkshop workshop)
{
    /// <summary>All of it, or nothing is changed; the history tells of it, and every open screen of the bench begins anew.</summary>
    public Fault? Run(string path, string who)
    {
        if (workshop.Store.Restore(path) is { } fault)
        {
            return fault;
        }

        // An earlier version's backup has not been looked over.
        workshop.Store.LookOver(LookOfOrder.Of);
        workshop.Store.Rooms.Set(
            OpenedWorkshop.BroughtBackSetting,
            workshop.Now.UtcDateTime.ToString("yyyy-MM-dd HH:mm:ss.fff", CultureInfo.InvariantCulture),
            workshop.Now,
            who
        );
        workshop.Bench.Tell();
        return null;
    }
}
