using System.Collections.Frozen;
using Coldpeel.Desk.Rooms;
using Coldpeel.Workshop.Orders;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Coldpeel.Web.Layout;

/// <summary>What a helper may do and what is the owner's: the one table that the gate asks before any route answers, and pages before they show a form.</summary>
/// <remarks>A helper reads everything but the workshop itself, works at the bench and moves the shelf's counts. What was agreed with the customer, what is made and what it costs is the owner's.
/// A route that stands in neither group is the owner's; a test asks that each stands in one.</remarks>
internal static class Rights
{
    /// <summary>Routes that take what a helper sends; of the steps of an order some (<see cref="MayTake"/>).</summary>
    public static readonly FrozenSet<string> Helpers = FrozenSet.ToFrozenSet(
        [
            "/join",
            "/language",
            "/bench",
            "/bench/{day:int}/taps",
            "/bench/{day:int}/close",
            "/orders/{name}/steps",
            "/shelf/{id:int}",
            "/shelf/{id:int}/place",
        ],
        StringComparer.Ordinal
    );

    /// <summary>Routes that take what an owner sends; all below <see cref="Room"/> are too.</summary>
    public static readonly FrozenSet<string> Owners = FrozenSet.ToFrozenSet(
        [
            "/bench/approved",
            "/orders",
            "/orders/new",
            "/orders/{name}/again",
            "/orders/{name}/answers",
            "/orders/{name}/answers/back",
            "/orders/{name}/artwork/{design}",
            "/orders/{name}/artwork/{design}/back",
            "/orders/{name}/back",
            "/orders/{name}/change",
            "/orders/{name}/from-shelf",
            "/shelf",
            "/shelf/spares",
        ],
        StringComparer.Ordinal
    );

    /// <summary>The workshop's own room: its settings, devices, prices, recipes and backups.</summary>
    public static readonly PathString Room = new("/workshop");

    // Pages that are a form and nothing else: whoever cannot send it is told so before it is filled in.
    private static readonly FrozenSet<string> OwnersForms = FrozenSet.ToFrozenSet(
        ["/orders/new", "/orders/{name}/change"],
        StringComparer.Ordinal
    );

    // The work itself. Approving, changing and setting aside are agreed with the customer.
    private static readonly FrozenSet<OrderStep> Work = FrozenSet.ToFrozenSet([
        OrderStep.Print,
        OrderStep.Press,
        OrderStep.Inspect,
        OrderStep.HandOver,
    ]);

    /// <summary>Whether whoever has that role may ask this.</summary>
    /// <param name="role">The role.</param>
    /// <param name="request">What is asked.</param>
    /// <param name="route">The address it leads to; null where there is no such page.</param>
    public static bool MayAsk(Role role, HttpRequest request, Endpoint? route)
    {
        if (role == Role.Owner)
        {
            return true;
        }

        if (request.Path.StartsWithSegments(Room))
        {
            return false;
        }

        // What leads nowhere, or is asked in a way that is not known, changes nothing and is answered so.
        var way = (route as RouteEndpoint)?.RoutePattern.RawText;
        return way is null
            || (
                HttpMethods.IsGet(request.Method) || HttpMethods.IsHead(request.Method)
                    ? !OwnersForms.Contains(way)
                    : Helpers.Contains(way)
            );
    }

    /// <summary>Whether whoever has that role may take the step, or take back the one that was taken last.</summary>
    /// <param name="role">The role.</param>
    /// <param name="step">The step.</param>
    /// <param name="taken">All steps so far, in order.</param>
    public static bool MayTake(Role role, OrderStep step, IReadOnlyList<OrderStep> taken) =>
        role == Role.Owner
        || Work.Contains(step)
        || (step == OrderStep.TakeBack && OrderWay.Last(taken) is { } last && Work.Contains(taken[last]));
}
